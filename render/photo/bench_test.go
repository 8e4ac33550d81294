//go:build unix

package photo

import (
	"bytes"
	"image"
	"image/jpeg"
	"math/rand/v2"
	"syscall"
	"testing"
	"time"

	"golang.org/x/image/draw"
)

// BenchmarkPhoto measures what becomes of a photo of twelve million pixels beside
// a floor: decoding, shrinking and encoding it with the bare libraries, in the same
// widths and to the same quality. x-floor is the ratio of CPU times.
//
//	go test ./render/photo -run '^$' -bench Photo -benchtime 5x
func BenchmarkPhoto(b *testing.B) {
	data := largePhoto(b)
	var floor time.Duration
	b.Run("floor", func(b *testing.B) { floor = cpu(b, func() { bare(b, data) }) })
	b.Run("make", func(b *testing.B) {
		took := cpu(b, func() {
			p, err := Look("a.jpg", data)
			if err != nil {
				b.Fatal(err)
			}
			if _, err := p.Make(given(data)); err != nil {
				b.Fatal(err)
			}
		})
		b.ReportMetric(float64(took)/float64(floor), "x-floor")
	})
}

// bare does it with the libraries alone. Of the scalers that look at every pixel
// BiLinear is the cheapest.
func bare(tb testing.TB, data []byte) {
	src, err := jpeg.Decode(bytes.NewReader(data))
	if err != nil {
		tb.Fatal(err)
	}
	for i := len(widths) - 1; i >= 0; i-- {
		w := widths[i]
		small := image.NewRGBA(image.Rect(0, 0, w, w*src.Bounds().Dy()/src.Bounds().Dx()))
		draw.BiLinear.Scale(small, small.Rect, src, src.Bounds(), draw.Src, nil)
		var out bytes.Buffer
		if err := jpeg.Encode(&out, small, &jpeg.Options{Quality: quality}); err != nil {
			tb.Fatal(err)
		}
		src = small
	}
}

// largePhoto is a picture with the grain and the detail of a photo, 4,000 by 3,000.
func largePhoto(tb testing.TB) []byte {
	r := rand.New(rand.NewPCG(1, 2))
	m := image.NewYCbCr(image.Rect(0, 0, 4000, 3000), image.YCbCrSubsampleRatio420)
	for i := range m.Y {
		m.Y[i] = byte(i%4000*i/40000/150) + byte(r.IntN(12))
	}
	for i := range m.Cb {
		m.Cb[i], m.Cr[i] = byte(100+i%2000/40+r.IntN(3)), byte(150-i/2000/40)
	}
	var out bytes.Buffer
	if err := jpeg.Encode(&out, m, &jpeg.Options{Quality: 92}); err != nil {
		tb.Fatal(err)
	}
	return out.Bytes()
}

// cpu runs work b.N times and returns the CPU time of one.
func cpu(b *testing.B, work func()) time.Duration {
	used := func() time.Duration {
		var u syscall.Rusage
		if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
			b.Fatal(err)
		}
		return time.Duration(u.Utime.Nano() + u.Stime.Nano())
	}
	b.ReportAllocs()
	before := used()
	for b.Loop() {
		work()
	}
	took := (used() - before) / time.Duration(b.N)
	b.ReportMetric(float64(took.Microseconds())/1000, "cpu-ms")
	return took
}
