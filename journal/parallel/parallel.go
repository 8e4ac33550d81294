// Package parallel spreads work over the cores without a trace in its result.
package parallel

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// Each calls do with every number from 0 to n-1, on every core and in no certain
// order, and returns when all calls have. Whoever needs an order keeps the results
// by number.
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
