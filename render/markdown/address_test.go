package markdown

import "testing"

func TestAddress(t *testing.T) {
	l := Links{Link: func(target string) string { return target }}
	for _, c := range []struct{ target, href string }{
		{"https://x.example/a b", "https://x.example/a%20b"},
		{"HTTP://x.example", "HTTP://x.example"},
		{"mailto:a@b.org", "mailto:a@b.org"},
		{"tel:+441", "tel:+441"},
		{"a/b.md#c", "a/b.md#c"},
		{"../a.md", "../a.md"},
		{"/../../a", "/../../a"}, // for the page to say where that is; on the same host in any case
		{"?q", "?q"},
		{"a%20b%2Fc", "a%20b%2Fc"},
		{"1:2", "1:2"},
		{"a/b:c", "a/b:c"},
		{"#nowhere", "#nowhere"},
		{"javascript:alert(1)", ""},
		{" javascript:alert(1)", ""},
		{"JavaScript:alert(1)", ""},
		{"java\tscript:alert(1)", ""},
		{"\x01javascript:alert(1)", ""},
		{"vbscript:x", ""},
		{"file:///etc/passwd", ""},
		{"data:image/png;base64,x", ""},
		{"data:text/html,x", ""},
		{"blob:x", ""},
		{"C:/x", ""},
		{"//host/a", ""},
		{"/\\host/a", ""},
		{"\\\\host/a", ""},
		{" ", ""},
		{"", ""},
	} {
		p := New().page(l)
		got := p.address(c.target)
		if got.href != c.href {
			t.Errorf("address(%q) is %q, want %q", c.target, got.href, c.href)
		}
		checkAddress(t, got.href)
	}
}

func TestSafe(t *testing.T) {
	for href, want := range map[string]bool{
		"a.html#b": true, "../a": true, "/a": true, "https://x.example": true, "": false, "//x": false, "javascript:x": false, "a\nb": false,
	} {
		if safe(href) != want {
			t.Errorf("safe(%q) is %v", href, !want)
		}
	}
}
