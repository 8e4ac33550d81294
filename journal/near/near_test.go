package near

import (
	"strings"
	"testing"
)

func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		// From memory: pairs that explain Levenshtein's distance.
		{"kitten", "sitting", 3}, {"saturday", "sunday", 3}, {"flaw", "lawn", 2},
		// Swapped neighbours count once; the optimal string alignment of CA and ABC
		// is 3, where unrestricted Damerau-Levenshtein gives 2.
		{"axel", "axle", 1}, {"ca", "abc", 3},
		{"", "", 0}, {"", "abc", 3}, {"Axle", "aXLE", 0}, {"måla", "mala", 1},
	} {
		if got := Distance(c.a, c.b, 9); got != c.want {
			t.Errorf("Distance(%q, %q) = %d, want %d", c.a, c.b, got, c.want)
		}
		if got := Distance(c.b, c.a, 9); got != c.want {
			t.Errorf("Distance(%q, %q) = %d, want %d", c.b, c.a, got, c.want)
		}
		if got := Distance(c.a, c.b, 1); got != min(c.want, 2) {
			t.Errorf("Distance(%q, %q, 1) = %d", c.a, c.b, got)
		}
	}
}

func TestNearest(t *testing.T) {
	stages := []string{"buying", "rear axle", "panel", "paint", "seal-1", "seal-2", "job", "mm", "m"}
	for word, want := range map[string]string{
		"rear axel": "rear axle", "pannel": "panel", "Paint": "paint", "piant": "paint", "pants": "panel", "paimts": "paint", "plants": "",
		"bying": "buying", "panelling": "", "jobs": "job", "jbo": "job", "jobbs": "", "mmm": "mm",
		"seal-3": "", "seal-1": "seal-1", "seal": "", "seel-1": "seal-1", "x": "", "": "",
		strings.Repeat("panel", 20): "", strings.Repeat("x", 1<<20): "",
	} {
		if got := Nearest(word, stages); got != want {
			t.Errorf("Nearest(%.20q) = %q, want %q", word, got, want)
		}
	}
	if got := Nearest("bat", []string{"cat", "hat"}); got != "cat" {
		t.Errorf("of two equally near, %q came before the first", got)
	}
}

// FuzzDistance checks that giving up at a limit never changes an answer within it.
func FuzzDistance(f *testing.F) {
	f.Add("ca", "abc")
	f.Add("abcd", "badc")
	f.Fuzz(func(t *testing.T, a, b string) {
		if len(a)+len(b) > 200 {
			return
		}
		full := Distance(a, b, 1000)
		if full != Distance(b, a, 1000) {
			t.Fatalf("%q and %q are not equally far both ways", a, b)
		}
		for limit := range 5 {
			if got := Distance(a, b, limit); got != min(full, limit+1) {
				t.Fatalf("Distance(%q, %q, %d) = %d, but they are %d apart", a, b, limit, got, full)
			}
		}
	})
}
