package photo

import (
	"bytes"
	"image"
	"image/png"
	"runtime"
	"runtime/debug"
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
			giveBack := b.take(n)
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
	if most.Load() > 10 || b.used != 0 {
		t.Errorf("%d were in use at once, and %d still are", most.Load(), b.used)
	}
}

// Pictures of sixteen bits, made by several at once and one after the other, never
// take more than the budget together, be it as garbage.
func TestMemoryIsBounded(t *testing.T) {
	const most, slack = 40 << 20, 6 << 20
	defer func(was *budget) { memory = was }(memory)
	memory = newBudget(most)
	m := image.NewRGBA64(image.Rect(0, 0, 4000, 400))
	for i := range m.Pix {
		m.Pix[i] = 0xff // opaque
	}
	var b bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	m = nil
	defer debug.SetGCPercent(debug.SetGCPercent(400)) // so that nothing else collects the garbage
	inUse := func() int64 {
		var now runtime.MemStats
		runtime.ReadMemStats(&now)
		return int64(now.HeapAlloc)
	}
	runtime.GC()
	before, done := inUse(), make(chan bool)
	var peak int64
	var watched, wg sync.WaitGroup
	watched.Go(func() {
		for {
			select {
			case <-done:
				return
			case <-time.After(time.Millisecond):
				peak = max(peak, inUse()-before)
			}
		}
	})
	for range 6 {
		wg.Go(func() { made(t, b.Bytes()) })
	}
	wg.Wait()
	close(done)
	watched.Wait()
	t.Logf("at most %d MB of %d", peak>>20, most>>20)
	if peak > most+slack || peak < most/2 {
		t.Errorf("%d MB were in use, of %d", peak>>20, most>>20)
	}
}
