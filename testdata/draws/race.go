//go:build race

package draws

// race tells that the race detector is at work.
const race = true
