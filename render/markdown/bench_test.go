package markdown

import (
	"bytes"
	"strings"
	"testing"

	"guidecoat/journal/note"
)

const workshop = "# Beam out\n\nThe *old* beam came out after [two evenings](2026-04-11.md); both bolts were **seized**.\n\n" +
	"![Cracked beam](beam.jpg)\n\n| bolt | torque |\n|---|--:|\n| front | 80 Nm |\n| rear | 90 Nm |\n\n" +
	"- [ ] temporary exhaust-hanger: hung on wire; major; waits for exhaust-rubber\n- [x] tow-socket: rewired\n\n" +
	"```sh\ncandump can0 | grep 3b0\n```\n\n"

// Ours beside goldmark's own renderer on the same trees.
func BenchmarkBody(b *testing.B) {
	text := strings.Repeat(workshop, 5)
	body := bodyOf(text)
	b.Run("ours", func(b *testing.B) {
		r := New()
		b.SetBytes(int64(len(text)))
		b.ReportAllocs()
		for b.Loop() {
			if _, err := r.Body(body, pictures); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("goldmark", func(b *testing.B) {
		b.SetBytes(int64(len(text)))
		b.ReportAllocs()
		for b.Loop() {
			var out bytes.Buffer
			if err := note.Markdown.Renderer().Render(&out, body.Source, body.Doc()); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkInline(b *testing.B) {
	r := New()
	for name, words := range map[string]string{"plain": "hung on wire until the rubber comes", "markup": "hung on *wire* until `x` comes"} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				r.Inline(words)
			}
		})
	}
}
