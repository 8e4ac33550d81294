package markup

import (
	"os/exec"
	"strings"
	"testing"

	"golang.org/x/net/html"
)

// hostile are texts that would be more than text if they were let.
var hostile = []string{
	"", "plain", "a < b & c > d", `"quoted" 'once'`, "</p></title></script></style><!--", "<script>x()</script>", "javascript:x()", "JaVaScRiPt:x()", " javascript:x()", "data:text/html,<p>",
	"x\x00y", "\xff\xfe", "&lt;", "&#60;", "a\" onclick=\"x", "' onclick='x", "//elsewhere/", "../up.html#a", "mailto:a@b.c", "https://example.org/?a=b&c=d", "a b\tc\nd\r", "x:y/z", "zażółć", "%zz%41",
}

// written is a page in which a text stands wherever one can.
func written(s string) string {
	return string(Page(func(string) string { return s }, "", func(w *W) {
		w.Raw(`<p title="`).Text(s).Raw(`">`).Text(s).Raw("<a").Href(s).Raw(">").With("<b>", s, "</b>").Raw("</a><img").Src(s).Raw(` alt="">`).Raw("<i>{Snags}</i>").
			Raw(`</p><script type="application/ld+json">`).Data(map[string]string{"a": s}).Raw("</script>")
		Each(w, []string{s}, "<ul>", func(s string) { w.Raw("<li>").Text(s).Raw("</li>") }, "</ul>")
	}))
}

// shape is the elements and attributes of a page without any text.
func shape(t *testing.T, page string) string {
	t.Helper()
	doc, err := html.Parse(strings.NewReader(page))
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for n := range doc.Descendants() {
		switch n.Type {
		case html.ElementNode:
			b.WriteString("<" + n.Data)
			for _, a := range n.Attr {
				b.WriteString(" " + a.Key)
				if a.Key != "href" && a.Key != "src" {
					continue
				}
				if scheme, _, ok := strings.Cut(strings.ToLower(a.Val), ":"); ok && !strings.ContainsAny(scheme, "/?#") && scheme != "http" && scheme != "https" && scheme != "mailto" {
					t.Errorf("an address does something: %q", a.Val)
				}
				if strings.ContainsAny(a.Val, " \t\r\n\"'<>\\") {
					t.Errorf("an address is not whole: %q", a.Val)
				}
			}
		case html.CommentNode:
			t.Errorf("a comment in %q", page)
		}
	}
	return b.String()
}

// shown is what a browser makes of the text when it stands in a page as it is.
func shown(s string) string { return strings.ReplaceAll(s, "\x00", "\uFFFD") }

// holds holds a page to what it is: whatever the text, it has the same elements, and
// they show the text.
func holds(t *testing.T, s string) {
	t.Helper()
	page := written(s)
	if got, want := shape(t, page), shape(t, written("x")); s != "" && got != want {
		t.Errorf("%q makes %s\nof %s", s, got, page)
	}
	doc, _ := html.Parse(strings.NewReader(strings.ReplaceAll(page, "\r", "&#13;"))) // a browser takes it for a newline
	for n := range doc.Descendants() {
		if n.Type == html.ElementNode && n.Data == "p" && n.Attr[0].Val != shown(s) {
			t.Errorf("a title %q, want %q", n.Attr[0].Val, shown(s))
		}
		if n.Type == html.ElementNode && n.Data == "b" && n.FirstChild.Data != shown(s) {
			t.Errorf("words %q, want %q", n.FirstChild.Data, shown(s))
		}
	}
}

func TestEscaping(t *testing.T) {
	for _, s := range hostile {
		holds(t, s)
	}
	for in, want := range map[string]string{
		"a.html#b": "a.html#b", "https://example.org/?a=b&c=d": "https://example.org/?a=b&amp;c=d", "javascript:x()": "#", "JAVASCRIPT:x()": "#", "data:x": "#", "a b": "a%20b", "é": "%c3%a9", "%41": "%41",
		"../x:y": "../x:y", "#a:b": "#a:b", "mailto:a@b.c": "mailto:a@b.c",
	} {
		if got := string(Page(nil, "", func(w *W) { w.Href(in) })); got != ` href="`+want+`"` {
			t.Errorf("the address %q is %s", in, got)
		}
	}
}

func FuzzEscaping(f *testing.F) {
	for _, s := range hostile {
		f.Add(s)
	}
	f.Fuzz(holds)
}

func TestEmptyWritesNothing(t *testing.T) {
	called := func(words string) string { return strings.ReplaceAll(words, "b", "<c>") }
	list := Around("<{b}>", "</>")
	got := string(Page(called, "nb", func(w *W) {
		w.With("<b>", "", "</b>").If(false, "x").If(true, "y{a}").Int(-12).Raw("({b}{a})").Open(list).Close(list).Typed()
		Each(w, nil, "<ul>", func(int) { w.Raw("never") }, "</ul>")
		Each(w, []int{1, 2}, "[{b}", func(n int) { w.Int(n) }, "]")
	}))
	if want := "ya-12(&lt;c&gt;a)<&lt;c&gt;></> dir=\"auto\" lang=\"nb\"[&lt;c&gt;12]"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// Pages that are written at the same time, or within each other, do not meet.
func TestPagesDoNotMeet(t *testing.T) {
	var inner []byte
	outer := Page(nil, "", func(w *W) {
		w.Raw("a")
		inner = Page(nil, "", func(w *W) { w.Raw("b") })
		w.Raw("c")
	})
	Page(nil, "", func(w *W) { w.Raw("zzz") })
	if string(outer) != "ac" || string(inner) != "b" {
		t.Errorf("%s, %s", outer, inner)
	}
}

// Words that are not typed in the program do not compile where markup is meant, and
// nobody but who renders Markdown makes finished HTML of words.
func TestForgottenEscapingDoesNotCompile(t *testing.T) {
	out, err := exec.Command("go", "build", "./testdata/forgotten").CombinedOutput()
	if err == nil {
		t.Fatal("it compiles")
	}
	for _, line := range []string{"forgotten.go:13:", "forgotten.go:14:", "forgotten.go:15:", "forgotten.go:16:", "forgotten.go:17:", "forgotten.go:18:", "forgotten.go:20:"} {
		if !strings.Contains(string(out), line) {
			t.Errorf("%s compiles:\n%s", line, out)
		}
	}
}
