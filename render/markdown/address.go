package markdown

import (
	"strings"
	"unicode/utf8"

	"github.com/yuin/goldmark/util"
)

// An address is where a link leads. The zero address leads nowhere.
type address struct {
	href     string
	shown    string // what is shown where the link has no words
	external bool
}

var schemes = map[string]bool{"http": true, "https": true, "mailto": true, "tel": true}

// address returns where a target leads: a known scheme, or something the page leads to itself.
func (p *page) address(target string) address {
	target = strings.Trim(target, " \t\r\n")
	scheme := schemeOf(target)
	switch {
	case target == "" || strings.ContainsFunc(target, isControl):
	case schemes[scheme]:
		return address{href: string(util.URLEscape([]byte(target), false)), shown: target, external: strings.HasPrefix(scheme, "http")}
	case scheme != "" || otherHost(target):
	case target[0] == '#' && outlineOf(p) != nil && p.anchors[target[1:]] != "":
		return address{href: "#" + string(util.URLEscape([]byte(p.anchors[target[1:]]), false)), shown: target}
	case p.l.Link != nil:
		if href := p.l.Link(target); safe(href) {
			return address{href: string(util.URLEscape([]byte(href), false)), shown: target, external: strings.HasPrefix(schemeOf(href), "http")}
		}
	}
	return address{}
}

// safe tells whether an address that the page gave may stand in it.
func safe(href string) bool {
	scheme := schemeOf(href)
	return href != "" && !strings.ContainsFunc(href, isControl) && !otherHost(href) && (scheme == "" || schemes[scheme])
}

// schemeOf returns the scheme of an address in lower case, "" for a relative one.
func schemeOf(s string) string {
	for i := 0; i < len(s); i++ {
		c := s[i] | 0x20 // lower case for letters
		switch {
		case c >= 'a' && c <= 'z':
		case i > 0 && (s[i] >= '0' && s[i] <= '9' || s[i] == '+' || s[i] == '-' || s[i] == '.'):
		case i > 0 && s[i] == ':':
			return strings.ToLower(s[:i])
		default:
			return ""
		}
	}
	return ""
}

// otherHost tells whether an address names a host, as browsers read it: two slashes of either sort.
func otherHost(s string) bool {
	return len(s) > 1 && (s[0] == '/' || s[0] == '\\') && (s[1] == '/' || s[1] == '\\')
}

func isControl(r rune) bool { return r < ' ' || r == 0x7f }

// unescaped resolves the backslashes and entities of a link's target or title.
func unescaped(b []byte) []byte {
	return util.ResolveEntityNames(util.ResolveNumericReferences(util.UnescapePunctuations(b)))
}

// clean returns valid UTF-8 with newlines and replacement characters for what HTML forbids.
func clean(b []byte) string {
	if isClean(b) {
		return string(b)
	}
	var out strings.Builder
	out.Grow(len(b) + len(b)/8)
	for i := 0; i < len(b); {
		r, size := utf8.DecodeRune(b[i:])
		switch {
		case r == '\r':
			if i+1 == len(b) || b[i+1] != '\n' {
				out.WriteByte('\n')
			}
		case r == utf8.RuneError && size == 1, forbidden(r):
			out.WriteRune(utf8.RuneError)
		default:
			out.Write(b[i : i+size])
		}
		i += size
	}
	return out.String()
}

func isClean(b []byte) bool {
	for i := 0; i < len(b); {
		if c := b[i]; c < utf8.RuneSelf {
			if c < ' ' && c != '\n' && c != '\t' || c == 0x7f {
				return false
			}
			i++
			continue
		}
		r, size := utf8.DecodeRune(b[i:])
		if r == utf8.RuneError && size == 1 || forbidden(r) {
			return false
		}
		i += size
	}
	return true
}

// forbidden tells whether HTML forbids the character: controls and noncharacters.
func forbidden(r rune) bool {
	return r < ' ' && r != '\n' && r != '\t' || r >= 0x7f && r <= 0x9f || r >= 0xfdd0 && r <= 0xfdef || r&0xfffe == 0xfffe
}
