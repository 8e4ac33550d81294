package markdown

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/alecthomas/chroma/v2"
)

func TestHighlight(t *testing.T) {
	var m memory
	for _, c := range []struct{ language, code, want string }{
		{"go", "x := \"<a>\" // b\n", `x <span class="o">:= </span><span class="s">&quot;&lt;a&gt;&quot; </span><span class="c">// b` + "\n</span>"},
		{"Go", "return 1\n", `<span class="k">return </span><span class="m">1` + "\n</span>"},
		{"diff", "+a\n-b\n c\n", `<span class="gi">+a` + "\n</span>" + `<span class="gd">-b` + "\n</span>" + " c\n"},
		{"guidecoat", "- [ ] job a-b: c; takes 1h\n", `- <span class="k">[ ] job </span><span class="n">a-b</span>: c; <span class="k">takes </span><span class="m">1h` + "\n</span>"},
		{"nosuch", "a <b\n", "a &lt;b\n"},
		{"", "a\n", "a\n"},
		{strings.Repeat("x", 1000), "a\n", "a\n"},
		{"go", "", ""},
		{"json", "\n\n{\"a\":\n\t1}\n\n", "\n\n{" + `<span class="n">&quot;a&quot;</span>:` + "\n\t" + `<span class="m">1</span>}` + "\n\n"},
	} {
		if got := m.highlighted(c.language, c.code); got != c.want {
			t.Errorf("%s %q is\n%s\nwant\n%s", c.language, c.code, got, c.want)
		}
	}
	large := strings.Repeat("x := 1\n", maxCode/7+1)
	if got := m.highlighted("go", large); got != large {
		t.Error("a block over maxCode is highlighted")
	}
}

// A lexer that fails, or that would change the code, leaves it plain.
func TestHighlightKeepsTheCode(t *testing.T) {
	for name, tokens := range map[string]func() (chroma.Iterator, error){
		"fails":  func() (chroma.Iterator, error) { return nil, fmt.Errorf("no") },
		"panics": func() (chroma.Iterator, error) { return func() chroma.Token { panic("no") }, nil },
		"loses": func() (chroma.Iterator, error) {
			return chroma.Literator(chroma.Token{Type: chroma.Keyword, Value: "a"}), nil
		},
		"changes": func() (chroma.Iterator, error) {
			return chroma.Literator(chroma.Token{Type: chroma.Keyword, Value: "A"}), nil
		},
	} {
		if got := highlight(tokens, "a<b\n"); got != "a&lt;b\n" {
			t.Errorf("a lexer that %s makes %q", name, got)
		}
	}
}

// The memory is bounded.
func TestMemory(t *testing.T) {
	m := memory{lexers: map[string]chroma.Lexer{}}
	for i := range maxLexers {
		m.lexers["no such "+strconv.Itoa(i)] = nil
	}
	if m.lexer("go") == nil || len(m.lexers) != 1 {
		t.Errorf("%d lexers are remembered", len(m.lexers))
	}
	m.lexer("nosuch")
	if l, ok := m.lexers["nosuch"]; l != nil || !ok {
		t.Error("an unknown language is not remembered as one")
	}
}

// Every class has a rule, every rule a colour that can be read on a light and on a
// dark page (WCAG 2.2, 1.4.3), and nothing else is said.
func TestCSS(t *testing.T) {
	css := CSS()
	known := map[string]bool{"": true}
	for _, token := range Tokens {
		known[token.Class] = true
		if !strings.Contains(css, ".chroma ."+token.Class+"{color:var("+token.Property+")") {
			t.Errorf("no rule for %q", token.Class)
		}
		for _, page := range []struct{ colour, on string }{{token.Light, "#ffffff"}, {token.Light, "#f2efe9"}, {token.Dark, "#1c1c1e"}, {token.Dark, "#2b2b2e"}} {
			if c := contrast(page.colour, page.on); c < 4.5 {
				t.Errorf("%s on %s has a contrast of %.2f", page.colour, page.on, c)
			}
		}
	}
	for kind := range chroma.StandardTypes {
		if !known[classOf(kind)] {
			t.Errorf("no colour for the class %q", classOf(kind))
		}
	}
	if len(css) > 1500 {
		t.Errorf("%d bytes of rules", len(css))
	}
}

func contrast(a, b string) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

func luminance(colour string) float64 {
	sum := 0.0
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		n, _ := strconv.ParseUint(colour[1+2*i:3+2*i], 16, 8)
		c := float64(n) / 255
		if c <= 0.04045 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		sum += weight * c
	}
	return sum
}
