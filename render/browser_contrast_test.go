package render

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"strings"
	"testing"
)

// A seenText is a text and where it is, with its colour.
type seenText struct {
	seenBox
	Words, Colour string
	Large         bool // WCAG asks less of it
}

// askGround says where the texts of the page's head are, and then takes them away.
const askGround = `
const list = [...document.querySelectorAll(".head, .hero, .blank")].flatMap(textsIn).flatMap(n => {
	const range = document.createRange(), s = getComputedStyle(n.parentElement), size = parseFloat(s.fontSize)
	range.selectNodeContents(n)
	return [...range.getClientRects()].filter(r => r.width > 2).map(r => ({X: r.left, Y: r.top + r.height * .2 + scrollY, Width: r.width, Height: r.height * .6, Words: n.data.trim().slice(0, 30), Colour: n.parentElement.ownerSVGElement ? s.fill : s.color,
		Large: size >= 24 || size >= 18.66 && s.fontWeight >= 700}))
})
const sheet = new CSSStyleSheet()
sheet.replaceSync("* { color: transparent !important; text-decoration-color: transparent !important } svg text { fill: transparent !important }")
document.adoptedStyleSheets = [sheet]
list`

// Text in the head of a page can be read on what lies behind it, dots and light too: the
// worst point behind it counts (WCAG 2.2, 1.4.3).
func TestContrastOnWhatIsDrawn(t *testing.T) {
	ctx := browser(t)
	read := map[string]bool{}
	for name, files := range exampleSites(t) {
		garage := strings.Contains(name, "garage")
		if !strings.Contains(name, "in June") && !garage || strings.Contains(name, "pack") {
			continue
		}
		dir := "file://" + writeSite(t, files) + "/"
		for kind, f := range kinds(files) {
			if garage && kind != "garage" || !strings.Contains("build sessions session snags garage", kind) || !toured(name, kind) {
				continue
			}
			for _, scheme := range []string{"light", "dark"} {
				for _, width := range []int64{390, 1280} {
					if (scheme == "light") != (width == 390) && !wholeTour() {
						continue
					}
					var texts []seenText
					ask(ctx, t, dir+f.Path, width, askGround, &texts, "prefers-color-scheme: "+scheme)
					low := 1.0
					for _, x := range texts {
						low = max(low, x.Y+x.Height)
					}
					img := seen(ctx, t, seenBox{0, 0, float64(width), math.Ceil(low)})
					for _, x := range texts {
						least := 4.5
						if x.Large {
							least = 3
						}
						if got := worstContrast(img, x); got < least {
							t.Errorf("%s, %s, %s at %d: %q is at worst %.2f", name, kind, scheme, width, x.Words, got)
						}
						read[kind] = true
					}
				}
			}
		}
	}
	if len(read) != 5 {
		t.Errorf("texts were read on %v only", read)
	}
}

// worstContrast is that of a text with the point behind it that is worst for it.
func worstContrast(img image.Image, x seenText) float64 {
	var r, g, b int
	if _, err := fmt.Sscanf(x.Colour, "rgb(%d, %d, %d)", &r, &g, &b); err != nil {
		return math.NaN()
	}
	ink, worst := fmt.Sprintf("#%02x%02x%02x", r, g, b), math.Inf(1)
	known := map[color.RGBA]bool{}
	area := image.Rect(int(x.X), int(x.Y), int(x.X+x.Width)+1, int(x.Y+x.Height)+1).Intersect(img.Bounds())
	for py := area.Min.Y; py < area.Max.Y; py++ {
		for px := area.Min.X; px < area.Max.X; px++ {
			c := color.RGBAModel.Convert(img.At(px, py)).(color.RGBA)
			if !known[c] {
				known[c] = true
				worst = min(worst, contrast(ink, fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B)))
			}
		}
	}
	return worst
}
