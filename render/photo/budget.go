package photo

import (
	"runtime"
	"sync"
)

// A budget is a number of bytes that may be in use at one time. What is given back
// stays in memory until the garbage is collected, so it counts until then.
type budget struct {
	mu    sync.Mutex
	freed *sync.Cond
	most  int64
	used  int64
	spent int64 // given back since the garbage was last collected
}

func newBudget(most int64) *budget {
	b := &budget{most: most}
	b.freed = sync.NewCond(&b.mu)
	return b
}

// take waits until n bytes are left, which must not be more than there are, and
// returns what gives them back.
func (b *budget) take(n int64) (giveBack func()) {
	b.mu.Lock()
	defer b.mu.Unlock()
	for b.used+n > b.most {
		b.freed.Wait()
	}
	if b.used+b.spent+n > b.most {
		runtime.GC()
		b.spent = 0
	}
	b.used += n
	return func() {
		b.mu.Lock()
		defer b.mu.Unlock()
		b.used -= n
		b.spent += n
		b.freed.Broadcast()
	}
}
