package study

import (
	"context"
	"runtime"
	"sync"
	"sync/atomic"
)

// abreast does n pieces of work, as many at once as there are processors. The error is that of the context, or that of the first piece that failed, by number. progress is told
// how many are done, one call at a time; nil = nobody is.
func abreast(ctx context.Context, n int, progress func(done, all int), work func(i int) error) error {
	var next, done atomic.Int64
	var crew sync.WaitGroup
	var tell sync.Mutex
	faults := make([]error, n)
	for range min(n, runtime.GOMAXPROCS(0)) {
		crew.Go(func() {
			for {
				i := int(next.Add(1)) - 1
				if i >= n || ctx.Err() != nil {
					return
				}
				faults[i] = work(i)
				if progress != nil {
					tell.Lock()
					progress(int(done.Add(1)), n)
					tell.Unlock()
				}
			}
		})
	}
	crew.Wait()
	if err := ctx.Err(); err != nil {
		return err
	}
	for _, err := range faults {
		if err != nil {
			return err
		}
	}
	return nil
}
