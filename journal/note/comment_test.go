package note

import (
	"strings"
	"testing"
	"time"

	"guidecoat/journal/source"
)

// What is left of a text without its comments, in which SECRET stands and SHOWN does not.
func TestComments(t *testing.T) {
	for _, c := range []struct{ name, typed, want, fault string }{
		{"none", "a - > b", "a - > b", ""},
		{"in a line", "a <!-- SECRET --> b", "a  b", ""},
		{"in a word", "a<!-- SECRET -->b", "ab", ""},
		{"at once ended", "a<!-->b<!--->c<!---->d", "abcd", ""},
		{"two that touch", "a <!-- SECRET --><!-- SECRET --> b", "a  b", ""},
		{"over lines, empty ones too", "a <!-- SECRET\n\n# SECRET\n\n- [ ] SECRET --> b\n\nc", "a  b\n\nc", ""},
		{"of its own lines", "a\n\n<!--\nSECRET\n-->\n\nb", "a\n\n\n\nb", ""},
		{"over list items", "- a <!-- SECRET\n- SECRET --> b\n- c", "- a  b\n- c", ""},
		{"before a heading", "<!-- SECRET --># a", "# a", ""},
		{"before words, which are no code by it", "<!-- SECRET --> a <!-- SECRET -->", " a ", ""},
		{"in a heading, a table, a quote", "# a <!-- SECRET -->\n\n|a <!-- SECRET -->|\n|-|\n|<!-- SECRET -->b|\n\n> c <!-- SECRET\n> SECRET --> d", "# a \n\n|a |\n|-|\n|b|\n\n> c  d", ""},
		{"in a link and a picture", "[a <!-- SECRET -->](b.md \"c <!-- SECRET -->\") ![d<!-- SECRET -->](e.jpg 'f <!-- SECRET -->')", "[a ](b.md \"c \") ![d](e.jpg 'f ')", ""},
		{"in a definition", "[a]\n\n[a]: b.jpg \"c <!-- SECRET -->\"", "[a]\n\n[a]: b.jpg \"c \"", ""},
		{"in HTML", "<div title=\"<!-- SECRET -->\">\n<!-- SECRET -->\n</div>\n\n<script>\n<!-- SECRET -->\n</script>", "<div title=\"\">\n\n</div>\n\n<script>\n\n</script>", ""},
		{"CRLF", "a <!-- SECRET\r\nSECRET --> b\r\nc <!-- SECRET -->\r\nd", "a  b\r\nc \r\nd", ""},
		{"what would join", "<!<!-- SECRET -->-- a `<!-- SECRET -->`` b ~<!-- SECRET -->~~", "<! -- a ` `` b ~ ~~", ""},

		{"escaped", "\\<!-- SHOWN --> \\\\<!-- SECRET --> \\\\\\<!-- SHOWN -->", "\\<!-- SHOWN --> \\\\ \\\\\\<!-- SHOWN -->", ""},
		{"in a code span", "a `<!-- SHOWN -->` <!-- SECRET --> ``<!-- SHOWN ` -->``", "a `<!-- SHOWN -->`  ``<!-- SHOWN ` -->``", ""},
		{"in a code span over lines", "a `b\n<!-- SECRET -->\nc` <!-- SECRET -->", "a `b\n\nc` ", ""}, // HTML parts the paragraph
		{"in a code span within lines", "a `b\nc <!-- SHOWN\n--> c` <!-- SECRET -->", "a `b\nc <!-- SHOWN\n--> c` ", ""},
		{"behind a backtick that ends in it", "a ` <!-- SHOWN ` SHOWN -->", "a ` <!-- SHOWN ` SHOWN -->", ""},
		{"behind a lone backtick", "5` <!-- SECRET -->\n\n5` <!-- SECRET -->", "5` \n\n5` ", ""},
		{"a backtick in one", "a <!-- SECRET ` --> b ` c <!-- SECRET -->", "a  b ` c ", ""},
		{"in a fence", "```html\n<!-- SHOWN -->\n```\n<!-- SECRET -->\n~~~\n<!-- SHOWN\n~~~\n\nb", "```html\n<!-- SHOWN -->\n```\n\n~~~\n<!-- SHOWN\n~~~\n\nb", ""},
		{"in a fence of a list and a quote", "- a\n  ```\n  <!-- SHOWN -->\n  ```\n  <!-- SECRET -->\n\n> ```\n> <!-- SHOWN -->\n\n<!-- SECRET -->", "- a\n  ```\n  <!-- SHOWN -->\n  ```\n  \n\n> ```\n> <!-- SHOWN -->\n\n", ""},
		{"behind a fence that its list ends", "- ```\n  <!-- SHOWN -->\n\nb <!-- SECRET -->", "- ```\n  <!-- SHOWN -->\n\nb ", ""},
		{"in indented code", "a\n\n    <!-- SHOWN -->\n\n- b\n\n      <!-- SHOWN -->\n\n    <!-- SECRET -->", "a\n\n    <!-- SHOWN -->\n\n- b\n\n      <!-- SHOWN -->\n\n    ", ""},
		{"in words that are indented", "a\n    <!-- SECRET -->", "a\n    ", ""},
		{"a fence in one", "a <!-- SECRET\n\n```\n\nSECRET --> b\n\n<!-- SECRET -->\n\n```html\n<!-- SHOWN -->\n```", "a  b\n\n\n\n```html\n<!-- SHOWN -->\n```", ""},
		{"a fence in one, and another below", "a <!-- SECRET\n\n```\n\n--> b\n\n```\n<!-- SHOWN -->\n```", "a  b\n\n```\n<!-- SHOWN -->\n```", ""},
		{"backticks in two that touch", "a <!--`\n\nSECRET`--><!--`\n\nSECRET`--> `<!-- SHOWN -->`", "a  `<!-- SHOWN -->`", ""},
		{"a fence behind one", "<!-- SECRET --> ```\n<!-- SHOWN -->\n```\n<!-- SECRET -->", " ```\n<!-- SHOWN -->\n```\n", ""},
		{"behind the end of a fence", "```\n<!-- SHOWN -->\n``` <!-- SECRET -->\n\n<!-- SECRET -->", "```\n<!-- SHOWN -->\n``` \n\n", ""},
		{"two before a fence in a list", "- a\n\n<!-- SECRET --><!-- SECRET -->  ```\n  <!-- SHOWN -->\n  ```\n- b", "- a\n\n  ```\n  <!-- SHOWN -->\n  ```\n- b", ""},
		{"the info of a fence", "``` html <!-- SECRET -->\n<!-- SHOWN -->\n```", "``` html \n<!-- SHOWN -->\n```", ""},
		{"many, then code", strings.Repeat("<!-- SECRET --> a\n\n<!-- SECRET\n\n-->\n\n", 20) + "`<!-- SHOWN -->`", strings.Repeat(" a\n\n\n\n", 20) + "`<!-- SHOWN -->`", ""},
		{"in a paragraph that is not followed", "`a`\n" + strings.Repeat("*b* ", 300) + "\n" + strings.Repeat(strings.Repeat("*b* ", 300)+"\n", 8) + "<!-- SECRET -->", "`a`\n" + strings.Repeat("*b* ", 300) + "\n" + strings.Repeat(strings.Repeat("*b* ", 300)+"\n", 8), ""},

		{"never ended", "a\n\nb <!-- SECRET\n\n- [ ] SECRET", "a\n\nb ", "unclosed-comment 3:3-3:3 ||"},
		{"never ended, behind code", "`a` <!-- SECRET\n\nSECRET `b`", "`a` ", "unclosed-comment 1:5-1:5 ||"},
		{"the shortest that never ends", "a\n<!--", "a\n", "unclosed-comment 2:1-2:1 ||"},

		{"front matter", "---\ntitle: a <!-- SECRET --> b\ncost:\n  - 1.00 c <!-- SECRET; private -->; from <!-- SECRET -->d\n  # e <!-- SECRET\n<!-- SECRET -->\n---\nb", "---\ntitle: a  b\ncost:\n  - 1.00 c ; from d\n  # e \n\n---\nb", ""},
		{"front matter, never ended", "---\ntitle: a <!-- SECRET\nstage: b\n---\n-->", "---\ntitle: a \nstage: b\n---\n-->", "unclosed-comment 2:10-2:10 ||"},
		{"front matter, code and escapes", "---\ntitle: `<!-- SHOWN -->` \\<!-- SHOWN --> `a; <!-- SECRET -->`\n---\n", "---\ntitle: `<!-- SHOWN -->` \\<!-- SHOWN --> `a; `\n---\n", ""},
		{"at the fences", "--- <!-- SECRET -->\ntitle: a\n<!-- SECRET -->---\n\n    <!-- SHOWN -->", "--- \ntitle: a\n---\n\n    <!-- SHOWN -->", ""},
		{"a fence behind one of several lines", "<!-- SECRET\n-->---\ntitle: a\n\n    <!-- SECRET -->\n---\n", "---\ntitle: a\n\n    \n---\n", ""},
	} {
		n := Open(source.NewFile("a.md", []byte(c.typed)))
		if got := string(n.File.Data); got != c.want {
			t.Errorf("%s: of\n%q\nthis is left\n%q\nwant\n%q", c.name, c.typed, got, c.want)
		}
		faults := []string{}
		if c.fault != "" {
			faults = append(faults, c.fault)
		}
		wantFaults(t, c.name, n, faults...)
	}
}

// Twice as much of anything takes about twice as long.
func TestCommentsGrowWithTheText(t *testing.T) {
	for _, piece := range []string{
		"<!--", "<!-- ", "-->", "<!---->", "<!--> ", "\\<!-- ", "`<!-- ", "`<!-- -->` ", "`\n<!-- -->\n", "` `` <!-- x --> ", "<!-- a --> b\n", "<!-- a\n-->", "- <!-- a\n\n-->\n",
		"```\n<!-- -->\n```\n", "    <!-- -->\n\n", "<!-- ``` -->```\n", "\\", "`", "<!-- ` --> `<!-- -->`\n\n", "> <!-- x -->\n",
	} {
		for _, text := range []func(int) string{
			func(n int) string { return "`a` <!-- x\n\n-->\n" + strings.Repeat(piece, n) },
			func(n int) string {
				return "---\ntitle: a" + strings.ReplaceAll(strings.Repeat(piece, n), "\n", " ") + "\n---\n"
			},
			func(n int) string {
				return "---\n" + strings.Repeat("- "+strings.ReplaceAll(piece, "\n", " ")+"\n", n) + "---\n"
			},
		} {
			took := func(n int) time.Duration {
				f := source.NewFile("a.md", []byte(text(n)))
				begin := time.Now()
				Open(f)
				return time.Since(begin)
			}
			n := 50_000
			if len(piece) > 5 {
				n /= len(piece)
			}
			slow := 0
			for ; slow < 3; slow++ { // a busy machine is not slow each time
				if large := took(n); large <= time.Second || large <= 10*max(took(n/4), took(n/4)) {
					break
				}
			}
			if slow == 3 {
				t.Errorf("%d times %q takes more than ten times as long as a quarter of it", n, piece)
			}
		}
	}
}
