package main

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"fmt"
	"html/template"
	"regexp"
	"strings"
)

//go:embed preview/refresh.js
var refreshScript string

//go:embed preview/preview.css
var previewStyle []byte

//go:embed preview/pages.html
var previewHTML string

var previewPages = template.Must(template.New("").Parse(previewHTML))

// pagePolicy is the policy of the pages themselves, and on top of it the one script
// that refreshes them. Whatever else a page might hold does not run.
var pagePolicy = fmt.Sprintf("default-src 'none'; img-src 'self'; style-src 'self'; script-src 'sha256-%s'; connect-src 'self'; "+
	"base-uri 'none'; form-action 'none'; frame-ancestors 'none'", hashOfScript())

// filePolicy is that of everything else.
const filePolicy = "default-src 'none'; frame-ancestors 'none'; sandbox"

func hashOfScript() string {
	sum := sha256.Sum256([]byte(refreshScript))
	return base64.StdEncoding.EncodeToString(sum[:])
}

// A notice is what the preview itself has to say.
type notice struct {
	Heading, About string
	Said           []said
	More           string
	Home           bool // whether to lead to the first page
}

// said is one problem, with its place in the notes.
type said struct{ Place, Words, Help string }

// maxSaid is how many problems a page shows: who has more begins with the first.
const maxSaid = 50

// ownPolicy is the policy that a page carries for the day it is published. It
// allows no script at all, so in the preview the header's stands in for it.
var ownPolicy = regexp.MustCompile(`(?i)<meta[^>]+http-equiv=["']?content-security-policy["']?[^>]*>\n?`)

// dressed returns a page of the site as the preview shows it: with the script, and
// with a bar where the notice is not nil. The page given is not changed.
func dressed(page []byte, version string, n *notice) ([]byte, error) {
	var b bytes.Buffer
	if n != nil {
		if err := previewPages.ExecuteTemplate(&b, "bar", n); err != nil {
			return nil, err
		}
	}
	b.WriteString(`<script data-version="` + version + `">` + refreshScript + "</script>\n")
	head, rest := page, []byte(nil)
	if end := bytes.LastIndex(page, []byte("</body>")); end >= 0 {
		head, rest = page[:end], page[end:]
	}
	if at := ownPolicy.FindIndex(head); at != nil {
		head = append(append([]byte{}, head[:at[0]]...), head[at[1]:]...)
	}
	return bytes.Join([][]byte{head, b.Bytes(), rest}, nil), nil
}

// whole returns a page that holds a notice and nothing else.
func whole(n *notice) []byte {
	var b bytes.Buffer
	if err := previewPages.ExecuteTemplate(&b, "whole", n); err != nil {
		return []byte(template.HTMLEscapeString(err.Error()))
	}
	return b.Bytes()
}

// lines makes an entry of each line of an error, as joined errors have them.
func lines(err error) (list []said) {
	for line := range strings.SplitSeq(err.Error(), "\n") {
		list = append(list, said{Words: clean(line)})
	}
	return list
}
