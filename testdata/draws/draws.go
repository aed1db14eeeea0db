// Package draws makes random tests draw the same in every run, so that a change is judged by what it changes and not by luck. Tests import it for its effect.
//
// New draws: go test ./beam -rapid.seed=0 -rapid.checks=5000.
package draws

import (
	"flag"
	"strconv"
	"testing"

	_ "pgregory.net/rapid" // declares the flags
)

// full is how many cases a property is tried on.
const full = 100

func init() {
	checks := full
	if race {
		checks = full / 10 // each takes many times as long, and what is looked for is something else than numbers
	}
	for name, value := range map[string]string{"rapid.seed": "20251", "rapid.checks": strconv.Itoa(checks)} {
		if err := flag.Set(name, value); err != nil {
			panic("draws: rapid no longer has the flag " + name + ": " + err.Error())
		}
	}
}

// Full reports whether so many cases are drawn that a test may count how many of them it was about.
func Full() bool {
	checks, err := strconv.Atoi(flag.Lookup("rapid.checks").Value.String())
	return err == nil && checks >= full && !testing.Short()
}
