package markdown

import (
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"guidecoat/journal/note"
	"guidecoat/journal/source"
	"guidecoat/journal/view"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/text"
	"golang.org/x/net/html"
)

var update = flag.Bool("update", false, "write the golden files anew")

// An example is one of the CommonMark specification.
type example struct {
	Markdown, HTML, Section string
	Example                 int
}

// commonMark returns the examples of CommonMark 0.31.2 as goldmark's own tests
// have them, in the module's folder.
func commonMark(t testing.TB) []example {
	t.Helper()
	dir, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/yuin/goldmark").Output()
	if err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(dir)), "_test", "spec.json"))
	if err != nil {
		t.Fatal(err)
	}
	var list []example
	if err := json.Unmarshal(data, &list); err != nil {
		t.Fatal(err)
	}
	if len(list) != 652 {
		t.Fatalf("%d examples, want 652", len(list))
	}
	return list
}

// The examples of CommonMark read as the specification says, but for those listed
// in the golden file with the reason why they must not.
func TestCommonMark(t *testing.T) {
	differ := map[string][]string{}
	r := New()
	l := pictures
	l.Link = func(target string) string { return target }
	for _, e := range commonMark(t) {
		// Front matter is no part of the specification: an empty line above keeps it away.
		src := note.Open(source.NewFile("a.md", []byte("\n"+e.Markdown))).File.Data
		b := &view.Body{Doc: func() ast.Node { return note.Markdown.Parser().Parse(text.NewReader(src)) }, Source: src}
		rendered, err := r.Body(b, l)
		if err != nil {
			t.Fatal(err)
		}
		out := rendered.String()
		checkHTML(t, out)
		parsed(t, out)
		if strings.Contains(out, "<script") || strings.Contains(out, `="javascript:`) {
			t.Errorf("example %d is unsafe: %s", e.Example, out)
		}
		got, want := textOf(t, out), textOf(t, e.HTML)
		gotLinks, wantLinks := linksOf(t, out), linksOf(t, e.HTML)
		reason := ""
		switch sameWords, sameLinks := got == want, slices.Equal(gotLinks, wantLinks); {
		case sameWords && sameLinks:
			continue
		case len(src) < len(e.Markdown):
			reason = reasonComment
		case has(b, func(n ast.Node) bool { return n.Kind() == ast.KindRawHTML || n.Kind() == ast.KindHTMLBlock }):
			reason = reasonHTML
		case sameLinks && has(b, func(n ast.Node) bool { return n.Kind() == ast.KindLink && !hasWords(n, b.Source) }):
			reason = reasonEmpty
		case sameWords && slices.Equal(gotLinks, slices.DeleteFunc(wantLinks, refused)):
			reason = reasonLink
		default:
			t.Errorf("example %d (%s) %q\nreads %q %q\nwant  %q %q", e.Example, e.Section, e.Markdown, got, gotLinks, want, wantLinks)
		}
		differ[reason] = append(differ[reason], strconv.Itoa(e.Example))
	}
	var b strings.Builder
	b.WriteString("The examples of CommonMark 0.31.2 whose words are not those of the specification, by number.\n")
	for _, reason := range []string{reasonHTML, reasonComment, reasonEmpty, reasonLink} {
		fmt.Fprintf(&b, "\n%s: %d\n%s\n", reason, len(differ[reason]), strings.Join(differ[reason], " "))
	}
	golden(t, "testdata/commonmark-differs.txt", b.String())
}

const (
	reasonHTML    = "raw HTML is shown as text"
	reasonComment = "without its comment it is other Markdown"
	reasonEmpty   = "a link without words shows its address"
	reasonLink    = "an address leads nowhere, or is of a scheme that pages refuse"
)

// refused tells whether a link, as linksOf writes it, is one that no page may have.
func refused(link string) bool { return !safe(link[:strings.IndexByte(link, ' ')]) }

// has tells whether a body has a node like that.
func has(b *view.Body, like func(ast.Node) bool) bool {
	found := false
	_ = ast.Walk(b.Doc(), func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		found = found || like(n)
		return ast.WalkContinue, nil
	})
	return found
}

// textOf returns the words of HTML as they are read: the alternatives of pictures
// among them, what only we add left out.
func textOf(t testing.TB, s string) string {
	t.Helper()
	doc, err := html.Parse(strings.NewReader(s))
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	var walk func(n *html.Node)
	walk = func(n *html.Node) {
		switch n.Type {
		case html.TextNode:
			b.WriteString(n.Data)
		case html.ElementNode:
			if n.Data == "figcaption" || attrOf(n, "class") == "mark" || n.Data == "script" || n.Data == "style" {
				return
			}
			if n.Data == "img" {
				b.WriteString(attrOf(n, "alt"))
			}
			if !inlineElements[n.Data] {
				b.WriteByte(' ')
				defer b.WriteByte(' ')
			}
		}
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			walk(c)
		}
	}
	walk(doc)
	return strings.Join(strings.Fields(b.String()), " ")
}

// linksOf returns where the links of HTML lead, with their titles.
func linksOf(t testing.TB, s string) []string {
	t.Helper()
	var list []string
	z := html.NewTokenizer(strings.NewReader(s))
	for z.Next() != html.ErrorToken {
		if token := z.Token(); token.Type == html.StartTagToken && token.Data == "a" {
			n := &html.Node{Attr: token.Attr}
			list = append(list, attrOf(n, "href")+" "+attrOf(n, "title"))
		}
	}
	return list
}

var inlineElements = words("a em strong del code span img time mark")

func attrOf(n *html.Node, name string) string {
	for _, a := range n.Attr {
		if a.Key == name {
			return a.Val
		}
	}
	return ""
}

func golden(t *testing.T, path, got string) {
	t.Helper()
	if *update {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s has changed; got\n%s", path, got)
	}
}
