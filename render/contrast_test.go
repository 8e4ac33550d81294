package render

import (
	"cmp"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"guidecoat/render/markdown"
	"guidecoat/themes"
)

// luminance and contrast are those of WCAG 2.2.
func luminance(hex string) float64 {
	n, err := strconv.ParseUint(strings.TrimPrefix(hex, "#"), 16, 32)
	if err != nil || len(hex) != len("#rrggbb") {
		return math.NaN()
	}
	linear := func(c uint64) float64 {
		v := float64(c&0xFF) / 255
		if v <= 0.04045 {
			return v / 12.92
		}
		return math.Pow((v+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(n>>16) + 0.7152*linear(n>>8) + 0.0722*linear(n)
}

func contrast(a, b string) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

func TestContrastFormula(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want float64
	}{
		{"#000000", "#ffffff", 21}, {"#767676", "#ffffff", 4.5422}, {"#777777", "#ffffff", 4.4781}, {"#595959", "#ffffff", 7.0047},
		{"#0000ff", "#ffffff", 8.59}, {"#ff0000", "#ffffff", 3.998}, {"#949494", "#ffffff", 3.03},
	} {
		if got := contrast(c.a, c.b); math.Abs(got-c.want) > 0.005 {
			t.Errorf("%s on %s is %.4f, want %.4f", c.a, c.b, got, c.want)
		}
	}
}

// Every pair of colours that a theme puts on each other. Text needs 4.5, what is
// drawn and means something 3.
var (
	textPairs = [][2]string{
		{"ink", "ground"}, {"ink", "panel"}, {"ink", "deep"}, {"soft", "ground"}, {"soft", "panel"}, {"soft", "deep"},
		{"accent", "ground"}, {"accent", "panel"}, {"on-accent", "accent"}, {"on-tape", "tape"}, {"ground", "ink"}, {"ground", "steel"},
	}
	drawnPairs = [][2]string{
		{"edge", "ground"}, {"edge", "panel"}, {"steel", "ground"}, {"steel", "panel"}, {"accent", "deep"}, {"steel", "line"},
	}
)

// laidOut is a style with a line for each rule, as pages do not have it.
func laidOut(th *themes.Theme) string {
	return strings.NewReplacer("{", " {\n", "}", "}\n", "scheme:dark", "scheme: dark").Replace(string(th.Style))
}

var token = regexp.MustCompile(`--([a-z-]+):\s*(#[0-9a-f]{6});`)

func TestContrastOfThemes(t *testing.T) {
	for _, name := range themes.Names() {
		th, err := themes.Load(name, nil)
		if err != nil {
			t.Fatal(err)
		}
		light, rest, ok := strings.Cut(laidOut(th), "prefers-color-scheme: dark")
		if !ok {
			t.Fatalf("%s: no dark colours", name)
		}
		dark, _, _ := strings.Cut(rest, "\n}\n")
		colours := map[string]string{}
		for _, m := range []struct{ name, css string }{{"light", light}, {"dark", dark}} {
			for _, x := range token.FindAllStringSubmatch(m.css, -1) {
				colours[x[1]] = x[2]
			}
			check := func(pairs [][2]string, least float64) {
				for _, p := range pairs {
					if got := contrast(colours[p[0]], colours[p[1]]); !(got >= least) {
						t.Errorf("%s, %s: %s %s on %s %s is %.2f, needs %.1f", name, m.name, p[0], colours[p[0]], p[1], colours[p[1]], got, least)
					}
				}
			}
			check(textPairs, 4.5)
			check(drawnPairs, 3)
			for _, k := range markdown.Tokens {
				colour := k.Light
				if m.name == "dark" {
					colour = k.Dark
				}
				if got := contrast(colour, colours["panel"]); !(got >= 4.5) {
					t.Errorf("%s, %s: code %s %s is %.2f", name, m.name, k.Property, colour, got)
				}
			}
		}
	}
}

// rings are where a ring of focus lies on another colour than the page's.
var rings = map[string][][2]string{
	"surfacer": {{".status", "tape"}, {".top nav [aria-current]", "tape"}, {"li:target", "tape"}, {"tr:target", "tape"}},
	"lacquer":  {{".status", "tape"}, {".top", "lacquer"}, {".head", "lacquer"}, {".hero", "lacquer"}, {".foot", "lacquer"}},
}

// TestContrastOfFocus holds the rings of focus to the 3:1 of WCAG 2.2, 1.4.11.
func TestContrastOfFocus(t *testing.T) {
	rule := regexp.MustCompile(`(?m)^([^{}\n]*:focus-visible[^{}\n]*) \{[^}]*?outline(?:-color)?:[^;}]*var\(--([a-z-]+)\)`)
	for _, name := range themes.Names() {
		th, err := themes.Load(name, nil)
		if err != nil {
			t.Fatal(err)
		}
		css := laidOut(th)
		ring := map[string]string{} // the token, by where it is
		for _, m := range rule.FindAllStringSubmatch(css, -1) {
			for _, where := range strings.Split(m[1], ",") {
				ring[strings.TrimSpace(strings.TrimSuffix(where, ":focus-visible"))] = m[2]
			}
		}
		places := append([][2]string{{"", "ground"}, {"", "panel"}, {"", "deep"}}, rings[name]...)
		light, rest, _ := strings.Cut(css, "prefers-color-scheme: dark")
		dark, _, _ := strings.Cut(rest, "\n}\n")
		colours := map[string]string{}
		for _, mode := range []struct{ name, css string }{{"light", light}, {"dark", dark}} {
			for _, x := range token.FindAllStringSubmatch(mode.css, -1) {
				colours[x[1]] = x[2]
			}
			for _, p := range places {
				of := cmp.Or(ring[p[0]], ring[""])
				if got := contrast(colours[of], colours[p[1]]); !(got >= 3) {
					t.Errorf("%s, %s: the ring %s in %q on %s is %.2f", name, mode.name, of, p[0], p[1], got)
				}
			}
		}
	}
}
