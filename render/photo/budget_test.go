package photo

import (
	"sync"
	"sync/atomic"
	"testing"
	"time"
)

// However many ask at once, no more is in use than there is.
func TestBudget(t *testing.T) {
	b := newBudget(10)
	var used, most atomic.Int64
	var wg sync.WaitGroup
	for i := range 200 {
		wg.Go(func() {
			n := int64(1 + i%10)
			giveBack := b.take(int(n))
			now := used.Add(n)
			for {
				m := most.Load()
				if now <= m || most.CompareAndSwap(m, now) {
					break
				}
			}
			time.Sleep(100 * time.Microsecond) // so that others come meanwhile
			used.Add(-n)
			giveBack()
		})
	}
	wg.Wait()
	if most.Load() > 10 || b.left != 10 {
		t.Errorf("%d were in use at once, and %d are left", most.Load(), b.left)
	}
}
