// Package draws makes random tests draw the same in every run, so that a change is judged by what it changes and not by luck. Tests import it for its effect.
//
// New draws: go test ./beam -rapid.seed=0 -rapid.checks=5000.
package draws

import (
	"flag"

	_ "pgregory.net/rapid" // declares the flag
)

func init() {
	if err := flag.Set("rapid.seed", "20251"); err != nil {
		panic("draws: rapid no longer has the flag rapid.seed: " + err.Error())
	}
}
