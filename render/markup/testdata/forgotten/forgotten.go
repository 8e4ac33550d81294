// Package forgotten forgets to escape in every way there is. It must not compile: the
// test reads at which lines.
package forgotten

import (
	"fmt"

	"guidecoat/render/markdown"
	"guidecoat/render/markup"
)

func forget(w *markup.W, words string, typed fmt.Stringer) {
	w.Raw(words)
	w.Raw("<p>" + words)
	w.With(words, "x", "")
	w.If(true, typed.String())
	w.Markdown(words)
	w.Markdown(markdown.HTML{words})
	markup.Each(w, []string{"x"}, "", func(string) {}, "")
	markup.Each(w, []string{"x"}, typed.String(), func(string) {}, "")
}
