package parallel

import (
	"runtime"
	"slices"
	"sync/atomic"
	"testing"
	"time"
)

func TestEach(t *testing.T) {
	for _, n := range []int{0, 1, 2, 1000} {
		times := make([]atomic.Int32, n)
		Each(n, func(i int) { times[i].Add(1) })
		for i := range times {
			if got := times[i].Load(); got != 1 {
				t.Errorf("of %d, %d was done %d times", n, i, got)
			}
		}
	}
}

// Results come in order, whichever is ready first, and none waits for long.
func TestOrdered(t *testing.T) {
	const ahead = 3
	most := int32(runtime.GOMAXPROCS(0)*(ahead+1) + 1)
	for _, n := range []int{0, 1, 2, 500} {
		var begun, taken, worst atomic.Int32
		want := 0
		for got := range Ordered(n, ahead, func(i int) int {
			worst.Store(max(worst.Load(), begun.Add(1)-taken.Load()))
			if i%7 == 0 {
				time.Sleep(time.Millisecond)
			}
			return i * i
		}) {
			if got != want*want {
				t.Fatalf("of %d, number %d is %d", n, want, got)
			}
			want++
			taken.Add(1)
		}
		if want != n {
			t.Errorf("%d of %d", want, n)
		}
		if worst.Load() > most {
			t.Errorf("%d waited at once, more than %d", worst.Load(), most)
		}
	}
}

// Whoever has enough stops, and nothing goes on behind his back.
func TestOrderedStopped(t *testing.T) {
	before := runtime.NumGoroutine()
	var done atomic.Int32
	var got []int
	for i := range Ordered(10_000, 2, func(i int) int { done.Add(1); return i }) {
		if got = append(got, i); len(got) == 3 {
			break
		}
	}
	if !slices.Equal(got, []int{0, 1, 2}) {
		t.Errorf("got %v", got)
	}
	if n := done.Load(); n > int32(4*runtime.GOMAXPROCS(0)+4) {
		t.Errorf("%d were made for three", n)
	}
	for range 100 {
		if runtime.NumGoroutine() <= before {
			return
		}
		time.Sleep(time.Millisecond)
	}
	t.Errorf("%d goroutines, %d before", runtime.NumGoroutine(), before)
}
