package markdown

import (
	"guidecoat/journal/view"
	"strings"
	"sync"
	"testing"
)

var bodyCases = []struct{ name, in, want string }{
	// Headings: one level below what they belong to, under the page's h1.
	{"a first heading", "# Beam out", `<h2 id="h-beam-out">Beam out</h2>`},
	{"levels are not left out", "### a\n\n# b\n\n#### c\n\n## d", `<h2 id="h-a">a</h2> <h2 id="h-b">b</h2> <h3 id="h-c">c</h3> <h3 id="h-d">d</h3>`},
	{"no heading below h6", "# a\n## b\n### c\n#### d\n##### e\n###### f", `<h2 id="h-a">a</h2> <h3 id="h-b">b</h3> <h4 id="h-c">c</h4> <h5 id="h-d">d</h5> <h6 id="h-e">e</h6> <h6 id="h-f">f</h6>`},
	{"ids are unique", "# a\n# a\n# a-2\n# A!", `<h2 id="h-a">a</h2> <h2 id="h-a-2">a</h2> <h2 id="h-a-2-2">a-2</h2> <h2 id="h-a-3">A!</h2>`},
	{"an id of no words", "# !!\n# 車軸 *é*", `<h2 id="h-section">!!</h2> <h2 id="h-車軸-é">車軸 <em>é</em></h2>`},
	{"the page's title is left out", "## The title\n\n# The title", `<h2 id="h-the-title">The title</h2>`},
	{"only the first heading is", "# a\n\n# The title", `<h2 id="h-a">a</h2> <h2 id="h-the-title">The title</h2>`},
	{"a heading below", "[x](#b-c) [y](#h-b-c)\n\n# B *c*", `<p><a href="#h-b-c">x</a> <a href="to/#h-b-c">y</a></p> <h2 id="h-b-c">B <em>c</em></h2>`},

	// Words.
	{"emphasis", "*a* __b__ ~~c~~ `d<`", `<p><em>a</em> <strong>b</strong> <del>c</del> <code>d&lt;</code></p>`},
	{"characters of HTML", "a < b & c > d \"e\" &amp; &eacute; &#60; \\<b>", `<p>a &lt; b &amp; c &gt; d &quot;e&quot; &amp; é &lt; &lt;b&gt;</p>`},
	{"line breaks", "a\nb  \nc\\\nd", "<p>a b<br> c<br> d</p>"},
	{"a code span of two lines", "`a\nb`", "<p><code>a b</code></p>"},
	{"characters that HTML forbids", "a\x00b\x01c &#1; \u0080 \xff\r\n", "<p>a\ufffdb\ufffdc \ufffd \ufffd \ufffd</p>"},
	{"a quote and a line", "> a\n\n---", "<blockquote> <p>a</p> </blockquote> <hr>"},
	{"lists", "3. a\n4. b\n\n- c\n\n  d", `<ol start="3"> <li>a</li> <li>b</li> </ol> <ul> <li> <p>c</p> <p>d</p> </li> </ul>`},

	// Links.
	{"a link within the build", `[a *b*](c.md "d &amp; e")`, `<p><a href="to/c.md" title="d &amp; e">a <em>b</em></a></p>`},
	{"a link elsewhere", "[a](https://x.example/?q=1&r=ä)", `<p><a href="https://x.example/?q=1&amp;r=%C3%A4" rel="noopener noreferrer external">a</a></p>`},
	{"addresses that are no address of a page", "[a](mailto:x@y.example) [b](tel:+44)", `<p><a href="mailto:x@y.example">a</a> <a href="tel:+44">b</a></p>`},
	{"addresses in brackets", "<https://x.example> <x@y.example> <irc://a>", `<p><a href="https://x.example" rel="noopener noreferrer external">https://x.example</a> <a href="mailto:x@y.example">x@y.example</a> irc://a</p>`},
	{"a link without words", "[](a.md) [<!-- x -->](https://x.example)", `<p><a href="to/a.md">a.md</a> <a href="https://x.example" rel="noopener noreferrer external">https://x.example</a></p>`},
	{"a link that the page knows nothing of", "[a](nowhere.md)", `<p>a</p>`},
	{"a link to nothing", "[a]()", `<p>a</p>`},
	{"unsafe links are words", "[*a*](javascript:alert) [b](JaVaScRiPt&colon;x) [c](data:text/html,x) [d](data:image/png;base64,x) [e](file:///a) [f](vbscript:x) [g](//host/a) [h](\\\\/host)",
		`<p><em>a</em> b c d e f g h</p>`},

	// Pictures.
	{"a picture alone", "![A hub](hub.jpg)", `<figure><img src="p/hub.jpg" width="400" height="300" alt="A hub" loading="lazy" decoding="async"><figcaption>A hub</figcaption></figure>`},
	{"its title is its caption", `![A hub](hub.jpg "The old one")`, `<figure><img src="p/hub.jpg" width="400" height="300" alt="A hub" loading="lazy" decoding="async"><figcaption>The old one</figcaption></figure>`},
	{"a caption is words", `![A <b>hub</b> & "nut"](hub.jpg)`, `<figure><img src="p/hub.jpg" width="400" height="300" alt="A &lt;b&gt;hub&lt;/b&gt; &amp; &quot;nut&quot;" loading="lazy" decoding="async"><figcaption>A &lt;b&gt;hub&lt;/b&gt; &amp; &quot;nut&quot;</figcaption></figure>`},
	{"and so is a title", `![A hub](hub.jpg "<img src=x onerror=a()> & so on")`, `<figure><img src="p/hub.jpg" width="400" height="300" alt="A hub" loading="lazy" decoding="async"><figcaption>&lt;img src=x onerror=a()&gt; &amp; so on</figcaption></figure>`},
	{"a picture without words", "![](hub.jpg)", `<figure><img src="p/hub.jpg" width="400" height="300" alt="" loading="lazy" decoding="async"></figure>`},
	{"a picture among words", "See ![*A* hub](hub.jpg \"t\").", `<p>See <img src="p/hub.jpg" width="400" height="300" alt="A hub" title="t" loading="lazy" decoding="async">.</p>`},
	{"several pictures", "![a](a.jpg)\n![b](b.jpg) <!-- c -->", `<div class="gallery"> <figure><img src="p/a.jpg" width="400" height="300" alt="a" loading="lazy" decoding="async"><figcaption>a</figcaption></figure> ` +
		`<figure><img src="p/b.jpg" width="400" height="300" alt="b" loading="lazy" decoding="async"><figcaption>b</figcaption></figure> </div>`},
	{"a picture that is a link", "[![a](a.jpg)](b.md)", `<figure><a href="to/b.md"><img src="p/a.jpg" width="400" height="300" alt="a" loading="lazy" decoding="async"></a><figcaption>a</figcaption></figure>`},
	{"a picture in an item", "- ![a](a.jpg)", `<ul> <li><figure><img src="p/a.jpg" width="400" height="300" alt="a" loading="lazy" decoding="async"><figcaption>a</figcaption></figure> </li> </ul>`},
	{"a missing picture", "![a \"b\"](missing.jpg)", `<p><span class="missing-picture">a &quot;b&quot;</span></p>`},
	{"a missing picture among others", "![a](missing.jpg) ![b](b.jpg)", `<div class="gallery"> <figure><span class="missing-picture">a</span></figure> ` +
		`<figure><img src="p/b.jpg" width="400" height="300" alt="b" loading="lazy" decoding="async"><figcaption>b</figcaption></figure> </div>`},

	// HTML is shown, comments are not.
	{"a comment", "a <!-- b --> c", "<p>a  c</p>"},
	{"a comment of its own", "a\n\n<!-- b\n\nc -->\n\nd", "<p>a</p> <p>d</p>"},
	{"words behind a comment", "<!-- a --> b <!-- c -->", `<p>b</p>`},
	{"short comments", "a<!-->b<!--->c", "<p>abc</p>"},
	{"a comment that never ends", "a\n\n<!-- b\n\nc", "<p>a</p>"},
	{"a quote and a list of comments", "> <!-- a -->\n\n- <!-- b -->\n- <!-- c -->\n\nd", "<p>d</p>"},
	{"HTML in words", "a <b onclick=\"x\">b</b> <br/>", `<p>a &lt;b onclick=&quot;x&quot;&gt;b&lt;/b&gt; &lt;br/&gt;</p>`},
	{"a block of HTML", "<div>\n<!-- a -->\nb</div>", `<p class="raw-html">&lt;div&gt;</p> <p>b&lt;/div&gt;</p>`},
	{"a script", "<script>\nalert(1) <!-- x\n</script>", `<p class="raw-html">&lt;script&gt; alert(1)</p>`},
	{"a comment in the middle of a line, with a blank one", "a <!-- b *c*\n\n# d\n\n- e [f](g)\n\n```\nh\n```\n\ni --> j\n\nk", "<p>a  j</p> <p>k</p>"},
	{"a comment in a block of HTML, with a blank line", "<div>\n<!-- a\n\nb --> c", `<p class="raw-html">&lt;div&gt;  c</p>`},
	{"what only looks like a comment", "`<!-- a` \\<!-- b --> c \\<!-- d", `<p><code>&lt;!-- a</code> &lt;!-- b --&gt; c &lt;!-- d</p>`},

	// Tables.
	{"a table", "| a | *b* |  |\n|:-:|--:|--|\n| 1 |\n", `<div class="table-scroll" tabindex="0" role="region" aria-label="Table 1: a, b"> <table> <thead> <tr> <th scope="col" class="center">a</th> <th scope="col" class="right"><em>b</em></th> <td></td> </tr> </thead> ` +
		`<tbody> <tr> <td class="center">1</td> <td></td> <td></td> </tr> </tbody> </table> </div>`},
	{"a table without rows", "| a |\n|---|", `<div class="table-scroll" tabindex="0" role="region" aria-label="Table 1: a"> <table> <thead> <tr> <th scope="col">a</th> </tr> </thead> </table> </div>`},

	// Code.
	{"indented code", "    a <b\r\n    c", `<pre class="chroma" tabindex="0"><code>a &lt;b c </code></pre>`},
	{"code", "```go\nfunc x() {}\n```", `<pre class="chroma" tabindex="0"><code class="language-go"><span class="k">func </span><span class="n">x</span>() {} </code></pre>`},
	{"code of an unknown language", "``` \"<x> y\na\n```", `<pre class="chroma" tabindex="0"><code class="language-&quot;&lt;x&gt;">a </code></pre>`},
	{"no code", "```\n```", `<pre class="chroma" tabindex="0"><code></code></pre>`},

	// Fault scans.
	{"a scan", "```scan abs\nC0035 left front, stored\nB1234-1A\n```", `<div class="table-scroll" tabindex="0" role="region" aria-label="ABS: fault codes"> <table class="scan"> <caption>ABS: fault codes</caption> ` +
		`<thead><tr><th scope="col">Code</th><th scope="col">What the unit says</th></tr></thead> <tbody> ` +
		`<tr><th scope="row"><a class="code" href="snags.html#scan-abs-C0035">C0035</a></th><td>left front, stored</td></tr> <tr><th scope="row"><a class="code" href="snags.html#scan-abs-B1234-1A">B1234-1A</a></th><td></td></tr> </tbody> </table> </div>`},
	{"a scan without codes", "```scan abs\nNo faults\n```", `<p class="scan">ABS: no faults</p>`},
	{"a line that is no code", "```scan no-unit\nC9999 <x>\nC0035: y\n```", `<div class="table-scroll" tabindex="0" role="region" aria-label="No unit: fault codes"> <table class="scan"> <caption>No unit: fault codes</caption> ` +
		`<thead><tr><th scope="col">Code</th><th scope="col">What the unit says</th></tr></thead> <tbody> ` +
		`<tr><td colspan="2">C9999 &lt;x&gt;</td></tr> <tr><th scope="row"><a class="code" href="snags.html#scan-no-unit-C0035">C0035</a></th><td>y</td></tr> </tbody> </table> </div>`},
	{"a scan of nothing", "```scan\nx\n```", `<pre class="chroma" tabindex="0"><code class="language-scan">x </code></pre>`},

	// Task lists where there are no snags.
	{"checkboxes", "- [ ] a\n- [x] b", `<ul class="tasks"> <li class="task open"><span class="mark" role="img" aria-label="open">☐</span> a</li> ` +
		`<li class="task done"><span class="mark" role="img" aria-label="done">☑</span> b</li> </ul>`},
	{"checkboxes in a loose list", "1. [ ] a\n\n   b", `<ol class="tasks"> <li class="task open"> <p><span class="mark" role="img" aria-label="open">☐</span> a</p> <p>b</p> </li> </ol>`},
}

func TestBody(t *testing.T) {
	l := pictures
	l.SkipHeading = "The title"
	l.Link = func(target string) string {
		if strings.HasPrefix(target, "nowhere") {
			return ""
		}
		return "to/" + target
	}
	for _, c := range bodyCases {
		t.Run(c.name, func(t *testing.T) {
			out := rendered(t, c.in, l)
			checkHTML(t, out)
			parsed(t, out)
			if got := collapse(out); got != c.want {
				t.Errorf("%q is\n%s\nwant\n%s", c.in, got, c.want)
			}
		})
	}
}

// collapse makes line ends spaces, and cuts those at the ends.
func collapse(s string) string { return strings.TrimSpace(strings.ReplaceAll(s, "\n", " ")) }

func TestUnderAndPrefix(t *testing.T) {
	out := rendered(t, "# a\n\n[b](#a)", Links{Under: 3, Prefix: "s7-"})
	if want := `<h4 id="s7-h-a">a</h4> <p><a href="#s7-h-a">b</a></p>`; collapse(out) != want {
		t.Errorf("got %s, want %s", out, want)
	}
}

// A page that knows nothing leads nowhere, and shows every word.
func TestNoLinks(t *testing.T) {
	out := rendered(t, "[a](b.md) ![c](d.jpg) ![](e.jpg \"f\") [g](#h)\n\n![i](j.jpg)\n\n```scan abs\nC0035\n```", Links{})
	checkHTML(t, out)
	for _, want := range []string{`<p>a <span class="missing-picture">c</span> <span class="missing-picture">f</span> g</p>`, `<p><span class="missing-picture">i</span></p>`, `<span class="code">C0035</span>`} {
		if !strings.Contains(out, want) {
			t.Errorf("no %s in %s", want, out)
		}
	}
	if out, err := New().Body(nil, Links{}); out.String() != "" || err != nil {
		t.Errorf("no body is %q, %v", out, err)
	}
	if out, err := New().Body(&view.Body{}, Links{}); out.String() != "" || err != nil {
		t.Errorf("an unread body is %q, %v", out, err)
	}
}

// What a page gives is held to the same rules as what a note says.
func TestLinksOfThePageAreChecked(t *testing.T) {
	l := Links{
		Link:    func(string) string { return "javascript:x" },
		Picture: func(string, string) (Picture, bool) { return Picture{Src: "https://x.example/a.jpg"}, true },
		Snag:    func(string) string { return "//host" },
	}
	out := rendered(t, "[a](b.md) ![c](d.jpg)\n\n```scan abs\nC0035\n```", l)
	checkHTML(t, out)
	if strings.Contains(out, "<a") || strings.Contains(out, "<img") {
		t.Error(out)
	}
}

// What is nested beyond all reason does not break the page, nor take more than
// linear space.
func TestNesting(t *testing.T) {
	for _, unit := range []string{"> ", "- ", "1. ", "*a **b ", "~~a *", "[![a](", "`", "<b ", "|", "- [ ] "} {
		text := strings.Repeat(unit, 3000) + "x\n"
		out := rendered(t, text, pictures)
		checkHTML(t, out)
		parsed(t, out)
		if len(out) > 60*len(text)+1000 {
			t.Errorf("%q times 3000 makes %d bytes of %d", unit, len(out), len(text))
		}
	}
	out := rendered(t, strings.Repeat("> ", 50)+"deep", Links{})
	if strings.Contains(out, ">deep") || !strings.Contains(out, `<p class="too-deep">(nested too deeply to be shown)</p>`) {
		t.Error("what is nested too deeply is not told to be")
	}
}

func TestWideTable(t *testing.T) {
	columns := 2000
	text := strings.Repeat("|a", columns) + "|\n" + strings.Repeat("|-", columns) + "|\n" + strings.Repeat("|b|\n", 100)
	if out := rendered(t, text, Links{}); len(out) > 100<<10 {
		t.Errorf("%d bytes of %d", len(out), len(text))
	}
}

// One Renderer serves every page at once.
func TestConcurrent(t *testing.T) {
	r := New()
	b := bodyOf("# a\n\n```go\nfunc x() {}\n```\n\n```nosuch\nx\n```\n\n- [ ] *b* [c](#a)\n")
	want, _ := r.Body(b, pictures)
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			for range 50 {
				got, err := r.Body(b, pictures)
				if got != want || err != nil {
					t.Errorf("got %s, %v", got, err)
				}
				r.Inline("*a* `b`")
			}
		})
	}
	all.Wait()
}
