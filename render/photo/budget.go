package photo

import "sync"

// A budget is a number of things that may be in use at one time.
type budget struct {
	mu    sync.Mutex
	freed *sync.Cond
	left  int
}

func newBudget(n int) *budget {
	b := &budget{left: n}
	b.freed = sync.NewCond(&b.mu)
	return b
}

// take waits until n are left, which must not be more than there are, and returns
// what gives them back.
func (b *budget) take(n int) (giveBack func()) {
	b.mu.Lock()
	defer b.mu.Unlock()
	for b.left < n {
		b.freed.Wait()
	}
	b.left -= n
	return func() {
		b.mu.Lock()
		defer b.mu.Unlock()
		b.left += n
		b.freed.Broadcast()
	}
}
