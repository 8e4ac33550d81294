package render

import (
	"bytes"
	"html/template"
	"strings"

	"github.com/yuin/goldmark/ast"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/render/markdown"
)

// body renders a note's Markdown for the page at that path.
func (s *site) body(at string, b *journal.Body) (template.HTML, error) {
	if b == nil || b.Doc == nil {
		return "", nil
	}
	return s.md.Body(b, markdown.Links{})
}

// bare returns the words of the first paragraph of a body, without markup.
func bare(b *journal.Body) string {
	if b == nil || b.Doc == nil {
		return ""
	}
	for n := b.Doc.FirstChild(); n != nil; n = n.NextSibling() {
		if p, ok := n.(*ast.Paragraph); ok && p.FirstChild() != nil && p.FirstChild().Kind() != ast.KindImage {
			if words := note.PlainText(p, b.Source); words != "" {
				return words
			}
		}
	}
	return ""
}

// The picture that stands in running text.
var pictureTemplate = template.Must(template.New("picture").Parse(
	`<a class="picture" href="{{.Href}}"><img src="{{.Src}}"{{with .Srcset}} srcset="{{.}}" sizes="(min-width: 64em) 42rem, 94vw"{{end}} width="{{.Width}}" height="{{.Height}}" alt="{{.Alt}}" loading="lazy" decoding="async"></a>`))

func (p *Picture) html() template.HTML {
	var b bytes.Buffer
	_ = pictureTemplate.Execute(&b, p) // a buffer takes all, and the fields are there
	return template.HTML(strings.TrimSpace(b.String()))
}
