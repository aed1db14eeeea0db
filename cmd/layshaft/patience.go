package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"time"
)

// errStopped is told when the user ends a long calculation.
var errStopped = errors.New("stopped; nothing was written")

// unasked is how long a calculation may take before its progress is shown.
const unasked = 700 * time.Millisecond

// patiently runs a long calculation that ends on an interrupt (ctrl-C). On a terminal it shows how far it is; what says what is being done.
func patiently(e env, what string, work func(ctx context.Context, progress func(done, all int)) error) error {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	begun, shown := time.Now(), false
	progress := func(done, all int) {
		if shown = shown || terminal(e.stderr) && time.Since(begun) > unasked; shown {
			fmt.Fprintf(e.stderr, "\r%s: %d of %d ", what, done, all)
		}
	}
	err := work(ctx, progress)
	if shown {
		fmt.Fprint(e.stderr, "\r\x1b[K")
	}
	if errors.Is(err, context.Canceled) {
		return errStopped
	}
	return err
}
