package press

import (
	"bytes"
	"html/template"
	"reflect"
	"strings"
)

// A pass is what an escaper does to a text.
type pass struct {
	filter func(string) string
	marks  *marks
}

// plain is the type that stands for all that html/template knows nothing about.
var plain = reflect.TypeFor[string]()

var (
	typeHTML   = reflect.TypeFor[template.HTML]()
	typeURL    = reflect.TypeFor[template.URL]()
	typeSrcset = reflect.TypeFor[template.Srcset]()
)

// escapers are those of html/template that are known here, each with what it does
// to types that are trusted where it stands, and to plain text. The names and what
// they do are those of Go 1.26, html/template/escape.go; tests compare the two.
var escapers = map[string]map[reflect.Type]pass{
	"_html_template_htmlescaper":   {plain: {marks: &special}, typeHTML: {}},
	"_html_template_attrescaper":   {plain: {marks: &special}, typeHTML: {untagged, &quotes}},
	"_html_template_rcdataescaper": {plain: {marks: &special}, typeHTML: {marks: &quotes}},
	"_html_template_urlfilter":     {plain: {filter: safeURL}, typeURL: {}},
	"_html_template_urlnormalizer": {plain: {filter: normalURL}},
	"_html_template_urlescaper":    {plain: {filter: escapedURL}, typeURL: {filter: normalURL}},
	"_html_template_srcsetescaper": {plain: {filter: srcset}, typeURL: {filter: srcsetURL}, typeSrcset: {}},
}

// Marks are what stands in text for bytes that would mean something in HTML.
type marks [256]string

var (
	special = marks{0: "\uFFFD", '"': "&#34;", '&': "&amp;", '\'': "&#39;", '+': "&#43;", '<': "&lt;", '>': "&gt;"}
	quotes  = marks{0: "\uFFFD", '"': "&#34;", '\'': "&#39;", '+': "&#43;", '<': "&lt;", '>': "&gt;"} // for what is HTML already
)

// append adds a text to out with its marks replaced; without marks as it is.
func (m *marks) append(out []byte, s string) []byte {
	if m == nil {
		return append(out, s...)
	}
	done := 0
	for i := range len(s) {
		if r := m[s[i]]; r != "" {
			out = append(append(out, s[done:i]...), r...)
			done = i + 1
		}
	}
	return append(out, s[done:]...)
}

// script is for values within scripts, of which there are few.
var script = template.Must(template.New("").Parse("<script>{{.}}</script>"))

// inScript leaves it to html/template to write a value of any type as JavaScript.
func inScript(out []byte, v reflect.Value) []byte {
	var b bytes.Buffer
	if !v.CanInterface() || script.Execute(&b, v.Interface()) != nil {
		panic(trouble{})
	}
	return append(out, b.Bytes()[len("<script>"):b.Len()-len("</script>")]...)
}

// untagged leaves it to html/template to take tags out of an attribute.
func untagged(s string) string {
	if strings.Contains(s, "<") {
		panic(trouble{})
	}
	return s
}

// unsafe stands for an address that was not let through.
const unsafe = "#ZgotmplZ"

func safeURL(s string) string {
	if !isSafe(s) {
		return unsafe
	}
	return s
}

// isSafe tells addresses that at most lead elsewhere from those that do something.
func isSafe(s string) bool {
	scheme, _, ok := strings.Cut(s, ":")
	return !ok || strings.Contains(scheme, "/") || strings.EqualFold(scheme, "http") || strings.EqualFold(scheme, "https") || strings.EqualFold(scheme, "mailto")
}

const letters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"

// The bytes that stay as they are in an address, and in a word within one.
var (
	inURL  = bytesOf(letters + "-._~!#$&*+,/:;=?@[]")
	inWord = bytesOf(letters + "-._~")
)

func bytesOf(s string) (set [256]bool) {
	for i := range len(s) {
		set[s[i]] = true
	}
	return set
}

func escapedURL(s string) string { return encode(s, &inWord, false) }

// normalURL takes no offence at bytes that are encoded already.
func normalURL(s string) string { return encode(s, &inURL, true) }

func encode(s string, stay *[256]bool, encoded bool) string {
	var out []byte
	done := 0
	for i := range len(s) {
		c := s[i]
		if stay[c] || encoded && c == '%' && i+2 < len(s) && isHex(s[i+1]) && isHex(s[i+2]) {
			continue
		}
		out = append(append(out, s[done:i]...), '%', hex[c>>4], hex[c&15])
		done = i + 1
	}
	if done == 0 {
		return s
	}
	return string(append(out, s[done:]...))
}

const hex = "0123456789abcdef"

func isHex(c byte) bool { return '0' <= c && c <= '9' || 'a' <= c && c <= 'f' || 'A' <= c && c <= 'F' }

const space = " \t\n\f\r"

// srcset filters a list of addresses, each with a word on the picture behind it.
func srcset(s string) string {
	list := strings.Split(s, ",")
	for i, one := range list {
		rest := strings.TrimLeft(one, space)
		end := strings.IndexAny(rest, space)
		if end < 0 {
			end = len(rest)
		}
		if !isSafe(rest[:end]) || strings.Trim(rest[end:], space+letters) != "" {
			list[i] = unsafe
			continue
		}
		list[i] = one[:len(one)-len(rest)] + normalURL(rest[:end]) + rest[end:]
	}
	return strings.Join(list, ",")
}

func srcsetURL(s string) string { return strings.ReplaceAll(normalURL(s), ",", "%2c") }
