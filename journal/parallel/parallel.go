// Package parallel spreads work over the cores without a trace in its result.
package parallel

import (
	"iter"
	"runtime"
	"sync"
	"sync/atomic"
)

// Each calls do with 0 to n-1, on every core and in no certain order, and returns when all calls have.
func Each(n int, do func(i int)) {
	var next atomic.Int64
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), n) {
		wg.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
			}
		})
	}
	wg.Wait()
}

// Ordered yields what do returns for 0 to n-1, while the cores work ahead by as many as the core count times ahead.
func Ordered[T any](n, ahead int, do func(i int) T) iter.Seq[T] {
	type promise struct {
		i    int
		made chan T
	}
	return func(yield func(T) bool) {
		cores := min(runtime.GOMAXPROCS(0), n)
		todo, promised := make(chan promise), make(chan promise, cores*ahead)
		stop := make(chan struct{})
		var wg sync.WaitGroup
		defer wg.Wait()
		defer close(stop)
		for range cores {
			wg.Go(func() {
				for p := range todo {
					p.made <- do(p.i)
				}
			})
		}
		wg.Go(func() {
			defer close(promised)
			defer close(todo)
			for i := range n {
				p := promise{i, make(chan T, 1)}
				select {
				case promised <- p:
				case <-stop:
					return
				}
				todo <- p // somebody takes it: the cores wait for nothing else
			}
		})
		for p := range promised {
			if !yield(<-p.made) {
				return
			}
		}
	}
}
