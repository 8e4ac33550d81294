package markdown

import (
	"strings"
	"unicode/utf8"
)

// clean returns HTML as text that any reader of HTML takes: valid UTF-8, lines that
// end in a newline, and no character that HTML forbids. What cannot be shown
// becomes the replacement character.
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
