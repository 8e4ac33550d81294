package render

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
	"guidecoat/render/place"
	"guidecoat/themes"
)

// Beside what every theme puts on each other, lacquer writes on its paint, also
// where the lamp lies across it, and its links are coloured.
func TestContrastOnLacquer(t *testing.T) {
	th, err := themes.Load("lacquer", nil)
	if err != nil {
		t.Fatal(err)
	}
	light, rest, _ := strings.Cut(laidOut(th), "prefers-color-scheme: dark")
	dark, _, _ := strings.Cut(rest, "\n}\n")
	colours := map[string]string{}
	for mode, css := range map[string]string{"light": light, "dark": light + dark} {
		for _, m := range token.FindAllStringSubmatch(css, -1) {
			colours[m[1]] = m[2]
		}
		colours["lit"] = over(t, colours["lacquer"], 0.1) // --lamp at its brightest
		for _, p := range [][2]string{{"on-lacquer", "lacquer"}, {"on-lacquer", "lit"}, {"haze", "lacquer"}, {"haze", "lit"}, {"tape", "lit"}, {"steel", "ground"}, {"steel", "panel"}, {"accent", "panel"}} {
			if got := contrast(colours[p[0]], colours[p[1]]); !(got >= 4.5) {
				t.Errorf("%s: %s on %s is %.2f", mode, p[0], p[1], got)
			}
		}
	}
}

// over lays white of that strength over a colour.
func over(t *testing.T, hex string, strength float64) string {
	t.Helper()
	n, err := strconv.ParseUint(strings.TrimPrefix(hex, "#"), 16, 32)
	if err != nil {
		t.Fatal(err)
	}
	mixed := func(c uint64) int { v := float64(c & 0xFF); return int(v + (255-v)*strength + 0.5) }
	return fmt.Sprintf("#%02x%02x%02x", mixed(n>>16), mixed(n>>8), mixed(n))
}

// lacquered is the example's site in that theme.
func lacquered(t *testing.T, to view.Audience, asOf measure.Date) []place.File {
	t.Helper()
	return once(fmt.Sprint("lacquer ", to, asOf), func() []place.File { return newLacquered(t, to, asOf) })
}

func newLacquered(t *testing.T, to view.Audience, asOf measure.Date) []place.File {
	t.Helper()
	th, err := themes.Load("lacquer", nil)
	if err != nil {
		t.Fatal(err)
	}
	b, err := journal.ReadBuild(example(), ".")
	if err != nil {
		t.Fatal(err)
	}
	return siteIn(t, th, example(), b, view.Of(state.At(b, asOf, today), to))
}
