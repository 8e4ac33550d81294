package markdown

import (
	"bytes"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/source"
	"guidecoat/journal/state"
	"guidecoat/journal/view"

	"golang.org/x/net/html"
)

// bodyOf parses Markdown as the body of a page, which has no snags.
func bodyOf(text string) *view.Body {
	n := note.Open(source.NewFile("a.md", []byte(text)))
	n.Read(note.Page, [1]note.Amount{}[0].Currency)
	return &view.Body{Doc: n.Doc, Source: n.File.Data}
}

func rendered(t testing.TB, text string, l Links) string {
	t.Helper()
	out, err := New().Body(bodyOf(text), l)
	if err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// viewOf reads a build of one job card and those notes, and shows it to an audience.
func viewOf(t testing.TB, to view.Audience, notes ...string) *view.View {
	t.Helper()
	fsys := fstest.MapFS{"build.md": {Data: []byte("---\nbuild: Halden\ncurrency: GBP\npublic:\n  snags: yes\n---\n")}}
	for i, text := range notes {
		fsys["2026-04-1"+string(rune('1'+i))+".md"] = &fstest.MapFile{Data: []byte(text)}
	}
	b, err := journal.ReadBuild(fsys, ".")
	if err != nil {
		t.Fatal(err)
	}
	today, _ := measure.ParseDate("2026-05-01")
	return view.Of(state.At(b, 0, today), to)
}

// pictures are links of a page that has a picture for every target but those with
// "missing" in them.
var pictures = Links{
	Link: func(target string) string { return "to/" + target },
	Picture: func(target, alt string) (Picture, bool) {
		return Picture{Src: "p/" + target, Width: 400, Height: 300}, !strings.Contains(target, "missing")
	},
	Snag: func(id string) string {
		if strings.HasPrefix(id, "no-") {
			return ""
		}
		return "snags.html#" + id
	},
}

// The elements and attributes that a body may have; nothing else is ever written.
var (
	allowedElements = words(`h2 h3 h4 h5 h6 p blockquote ul ol li hr pre code div table caption thead tbody tr th td
		a em strong del br img figure figcaption span time mark`)
	allowedAttributes = words(`id class start href title rel tabindex role aria-label scope colspan src srcset sizes width height
		alt loading decoding datetime`)
)

func words(list string) map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields(list) {
		set[w] = true
	}
	return set
}

var void = words("br hr img")

// checkHTML holds HTML to what every page promises: each element is closed in
// turn, and elements, attributes and addresses are those that are allowed.
func checkHTML(t testing.TB, out string) {
	t.Helper()
	var open []string
	ids := map[string]bool{}
	z := html.NewTokenizer(strings.NewReader(out))
	for {
		switch z.Next() {
		case html.ErrorToken:
			if len(open) > 0 {
				t.Errorf("left open: %v", open)
			}
			return
		case html.CommentToken, html.DoctypeToken:
			t.Errorf("unexpected %s", z.Raw())
		case html.StartTagToken:
			token := z.Token()
			if !allowedElements[token.Data] {
				t.Errorf("element %q is not allowed", token.Data)
			}
			for _, a := range token.Attr {
				if !allowedAttributes[a.Key] {
					t.Errorf("attribute %q is not allowed", a.Key)
				}
				if a.Key == "href" || a.Key == "src" {
					checkAddress(t, a.Val)
				}
				if a.Key == "id" {
					if ids[a.Val] || a.Val == "" || strings.ContainsAny(a.Val, " \t\n") {
						t.Errorf("id %q is taken or bad", a.Val)
					}
					ids[a.Val] = true
				}
			}
			if !void[token.Data] {
				open = append(open, token.Data)
			}
		case html.SelfClosingTagToken:
			t.Errorf("unexpected %s", z.Raw())
		case html.EndTagToken:
			name := z.Token().Data
			if len(open) == 0 || open[len(open)-1] != name {
				t.Fatalf("</%s> closes %v in\n%s", name, open, out)
			}
			open = open[:len(open)-1]
		}
	}
}

// checkAddress reads an address as browsers do: white space and controls around it,
// and line ends and tabs in it, are nothing.
func checkAddress(t testing.TB, s string) {
	t.Helper()
	s = strings.ToLower(strings.TrimFunc(s, func(r rune) bool { return r <= ' ' }))
	s = strings.NewReplacer("\t", "", "\n", "", "\r", "").Replace(s)
	if strings.HasPrefix(strings.ReplaceAll(s, `\`, "/"), "//") {
		t.Errorf("address %q leads to another host", s)
	}
	colon := strings.IndexAny(s, ":/?#")
	if colon <= 0 || s[colon] != ':' {
		return
	}
	for i, c := range s[:colon] {
		if !(c >= 'a' && c <= 'z' || i > 0 && (c >= '0' && c <= '9' || strings.ContainsRune("+-.", c))) {
			return // no scheme
		}
	}
	if !words("http https mailto tel")[s[:colon]] {
		t.Errorf("address %q is not allowed", s)
	}
}

// parsed checks that a browser builds the tree that was written: serialised and
// parsed again, nothing has been moved or closed for us.
func parsed(t testing.TB, out string) *html.Node {
	t.Helper()
	doc, err := html.Parse(strings.NewReader("<!DOCTYPE html><html><head></head><body>" + out + "</body></html>"))
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	body := doc.LastChild.LastChild
	for c := body.FirstChild; c != nil; c = c.NextSibling {
		if err := html.Render(&b, c); err != nil {
			t.Fatal(err)
		}
	}
	if got, want := normal(b.String()), normal(out); got != want {
		t.Errorf("a browser reads other HTML than was written\nwritten %s\nread    %s", want, got)
	}
	return body
}

// normal writes HTML token by token, so that only its meaning is compared.
func normal(s string) string {
	var b strings.Builder
	z := html.NewTokenizer(strings.NewReader(s))
	for z.Next() != html.ErrorToken {
		token := z.Token()
		if token.Type == html.SelfClosingTagToken {
			token.Type = html.StartTagToken
		}
		b.WriteString(token.String())
	}
	return b.String()
}
