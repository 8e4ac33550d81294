package markdown

import (
	"strings"
	"testing"

	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"

	"golang.org/x/net/html"
)

func TestNote(t *testing.T) {
	type at struct {
		start, end int
		severity   problem.Severity
	}
	for _, c := range []struct {
		name, text string
		problems   []at
		want       string
	}{
		{"an empty note", "", nil, `<li id="typed-1"><code></code></li>`},
		{"lines", "a <b\n\n# c\r\nd", nil, `<li id="typed-1"><code>a &lt;b</code></li> <li id="typed-2"><code></code></li> <li id="typed-3"><code><span class="gh"># c</span></code></li> <li id="typed-4"><code>d</code></li>`},
		{"a newline at the end", "a\n", nil, `<li id="typed-1"><code>a</code></li>`},
		{"what cannot be shown", "a\x00\xffé\r\n", nil, "<li id=\"typed-1\"><code>a\ufffd\ufffdé</code></li>"},
		{"a comment of two lines", "<!--a\nb-->c", nil, `<li id="typed-1"><code></code></li> <li id="typed-2"><code>c</code></li>`},
		{"a comment in a heading, and two", "# a <!--b--> c <!--d-->", nil, `<li id="typed-1"><code><span class="gh"># a  c </span></code></li>`},
		{"short comments", "<!-->a<!--->b", nil, `<li id="typed-1"><code>ab</code></li>`},
		{"a comment that never ends", "a <!--b\n\nc\n", nil, `<li id="typed-1"><code>a </code></li>`},
		{"a comment in front matter", "---\ntitle: <!--a-->\n---\n", nil, `<li id="typed-1"><code>---</code></li> <li id="typed-2"><code><span class="n">title</span>: </code></li> <li id="typed-3"><code>---</code></li>`},

		{"a problem", "abc\nd", []at{{1, 2, problem.Error}}, `<li id="typed-1" class="error"><code>a<mark class="error" title="m1">b</mark>c</code>E1</li> <li id="typed-2"><code>d</code></li>`},
		{"within a token", "# abc", []at{{3, 4, problem.Warning}},
			`<li id="typed-1" class="warning"><code><span class="gh"># a</span><mark class="warning" title="m1"><span class="gh">b</span></mark><span class="gh">c</span></code>W1</li>`},
		{"over lines", "ab\n\ncd\ne", []at{{1, 5, problem.Error}}, `<li id="typed-1" class="error"><code>a<mark class="error" title="m1">b</mark></code>E1</li> ` +
			`<li id="typed-2"><code></code></li> <li id="typed-3"><code><mark class="error" title="m1">c</mark>d</code></li> <li id="typed-4"><code>e</code></li>`},
		{"up to the next line", "ab\ncd", []at{{1, 3, problem.Error}}, `<li id="typed-1" class="error"><code>a<mark class="error" title="m1">b</mark></code>E1</li> <li id="typed-2"><code>cd</code></li>`},
		{"overlapping", "abcd", []at{{0, 3, problem.Warning}, {1, 4, problem.Error}},
			`<li id="typed-1" class="error"><code><mark class="warning" title="m1">a</mark><mark class="error" title="m1; m2">bc</mark><mark class="error" title="m2">d</mark></code>W1E2</li>`},
		{"nested, and out of order", "abc", []at{{1, 2, problem.Information}, {0, 3, problem.Warning}},
			`<li id="typed-1" class="warning"><code><mark class="warning" title="m2">a</mark><mark class="warning" title="m2; m1">b</mark><mark class="warning" title="m2">c</mark></code>W2I1</li>`},
		{"empty", "ab", []at{{1, 1, problem.Error}}, `<li id="typed-1" class="error"><code>a<mark class="error empty" title="m1"></mark>b</code>E1</li>`},
		{"empty within another", "abc", []at{{0, 3, problem.Warning}, {1, 1, problem.Error}},
			`<li id="typed-1" class="error"><code><mark class="warning" title="m1">a</mark><mark class="error empty" title="m2"></mark><mark class="warning" title="m1">bc</mark></code>W1E2</li>`},
		{"empty at the begin, in an empty note", "", []at{{0, 0, problem.Error}}, `<li id="typed-1" class="error"><code><mark class="error empty" title="m1"></mark></code>E1</li>`},
		{"of a line's end alone", "ab\r\nc", []at{{2, 4, problem.Error}}, `<li id="typed-1" class="error"><code>ab<mark class="error empty" title="m1"></mark></code>E1</li> <li id="typed-2"><code>c</code></li>`},
		{"behind the last newline", "a\n", []at{{2, 2, problem.Error}}, `<li id="typed-1"><code>a</code></li> <li id="typed-2" class="error"><code><mark class="error empty" title="m1"></mark></code>E1</li>`},
		{"outside of the note", "ab", []at{{-3, 1, problem.Error}, {7, 9, problem.Warning}},
			`<li id="typed-1" class="error"><code><mark class="error" title="m1">a</mark>b<mark class="warning empty" title="m2"></mark></code>E1W2</li>`},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := note.Open(source.NewFile("a.md", []byte(c.text))).File
			var list []problem.Problem
			messages := []string{"<li>", "<li>"}
			for i, a := range c.problems {
				n := string(rune('1' + i))
				list = append(list, problem.Problem{Check: "c" + n, Severity: a.severity, Span: f.Span(a.start, a.end), Message: "m" + n, Help: "h" + n})
				messages = append(messages, `<div class="problem `+a.severity.String()+`"><p><strong>`+a.severity.String()+", c"+n+`:</strong> m`+n+`</p><p class="help">h`+n+`</p></div>`,
					strings.ToUpper(a.severity.String()[:1])+n)
			}
			list = append(list, problem.Problem{Check: "other", Severity: problem.Error, Span: source.NewFile("b.md", []byte("x")).Span(0, 1), Message: "elsewhere"}, problem.Problem{})
			out := New().Note(f, list, nil).String()
			checkHTML(t, out)
			parsed(t, out)
			got := strings.NewReplacer(messages...).Replace(collapse(out))
			if want := `<ol class="raw chroma"> ` + c.want + ` </ol>`; got != want {
				t.Errorf("got\n%s\nwant\n%s", got, want)
			}
		})
	}
}

// FuzzNote holds that a note's lines are shown as they are, whatever is marked in them.
func FuzzNote(f *testing.F) {
	f.Add("---\ndate: x\n---\n# a\n<!-- b\n\n-->\n- [ ] c-d: e; due f\n", 3, 9, 5, 30)
	f.Fuzz(func(t *testing.T, text string, a, b, c, d int) {
		file := note.Open(source.NewFile("a.md", []byte(text))).File
		list := []problem.Problem{
			{Check: "a", Severity: problem.Error, Span: file.Span(a, b), Message: "<m>"},
			{Check: "b", Severity: problem.Information, Span: file.Span(c, d), Message: "\"n", Help: "h"},
		}
		out := New().Note(file, list, nil).String()
		checkHTML(t, out)
		var shown []string
		in := false
		z := html.NewTokenizer(strings.NewReader(out))
		for z.Next() != html.ErrorToken {
			switch token := z.Token(); {
			case token.Data == "code":
				if in = token.Type == html.StartTagToken; in {
					shown = append(shown, "")
				}
			case in && token.Type == html.TextToken:
				shown[len(shown)-1] += token.Data
			}
		}
		if strings.ContainsFunc(text, func(r rune) bool { return r > '~' }) {
			return // a mark may cut a character of several bytes, which is then shown as what it is
		}
		got, want := strings.Join(shown, "\n"), clean(file.Data)
		if file.IsCut() { // the lines of a comment are there, and empty
			got, want = strings.ReplaceAll(got, "\n", ""), strings.ReplaceAll(want, "\n", "")
		}
		if got != want && got != strings.TrimSuffix(want, "\n") {
			t.Errorf("%q is shown as %q", want, got)
		}
	})
}
