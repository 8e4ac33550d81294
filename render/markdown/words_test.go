package markdown

import (
	"strings"
	"testing"
)

func TestInline(t *testing.T) {
	r := New()
	for _, c := range []struct{ in, html, plain string }{
		{"hung on wire", "hung on wire", "hung on wire"},
		{" it's 3\" > 2\" ", `it's 3&quot; &gt; 2&quot;`, `it's 3" > 2"`},
		{"*a* __b__ ~~c~~ `d*`", "<em>a</em> <strong>b</strong> <del>c</del> <code>d*</code>", "a b c d*"},
		{"a < b & c &amp; &lt; \\* \\", `a &lt; b &amp; c &amp; &lt; * \`, `a < b & c & < * \`},
		{"1. of *three*", "1. of <em>three</em>", "1. of three"},
		{"- not a *list*", "- not a <em>list</em>", "- not a list"},
		{"# 3 `x`", "# 3 <code>x</code>", "# 3 x"},
		{"> `x`", "&gt; <code>x</code>", "> x"},
		{"    `x`", "<code>x</code>", "x"},
		{"```x", "```x", "```x"},
		{"[ ] *x*", "[ ] <em>x</em>", "[ ] x"},
		{"[x]: y *z*", "[x]: y <em>z</em>", "[x]: y z"},
		{"a `<!-- b` c", "a <code>&lt;!-- b</code> c", "a <!-- b c"},
		{"a <b>c</b>", "a &lt;b&gt;c&lt;/b&gt;", "a <b>c</b>"},
		{"<div>", "&lt;div&gt;", "<div>"},
		{"[a](b.md) [c](https://d.example) [e](javascript:f)", `a <a href="https://d.example" rel="noopener noreferrer external">c</a> e`, "a c e"},
		{"![a *b*](c.jpg) ![](d.jpg)", "a b", "a b"},
		{"a\nb  \nc\n\n*d*", "a\nb<br>\nc <em>d</em>", "a b c d"},
		{"", "", ""},
		{"&#1; \x00*", "\ufffd \ufffd*", "\ufffd \ufffd*"},
	} {
		got := r.Inline(c.in).String()
		checkHTML(t, got)
		if strings.TrimSpace(got) != c.html {
			t.Errorf("Inline(%q) is %q, want %q", c.in, got, c.html)
		}
		if got := Plain(c.in); got != c.plain {
			t.Errorf("Plain(%q) is %q, want %q", c.in, got, c.plain)
		}
	}
	if got := r.InlineWith("[a](b.md) ![c](d.jpg)", pictures); got.String() != `<a href="to/b.md">a</a> c` {
		t.Errorf("InlineWith is %q", got)
	}
}
