package main

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"fmt"
	"regexp"
	"strings"

	"guidecoat/render/markup"
)

//go:embed preview/refresh.js
var refreshScript string

//go:embed preview/preview.css
var previewStyle []byte

// pagePolicy is that of the pages, and on top of it the one script that refreshes them.
var pagePolicy = fmt.Sprintf("default-src 'none'; img-src 'self'; style-src 'self'; script-src 'sha256-%s'; connect-src 'self'; "+
	"base-uri 'none'; form-action 'none'; frame-ancestors 'none'", hashOfScript())

const filePolicy = "default-src 'none'; frame-ancestors 'none'; sandbox"

func hashOfScript() string {
	sum := sha256.Sum256([]byte(refreshScript))
	return base64.StdEncoding.EncodeToString(sum[:])
}

type notice struct {
	Heading, About string
	Said           []said
	More           string
	Home           bool // whether to lead to the first page
}

type said struct{ Place, Words, Help string }

// maxSaid is how many problems a page shows: who has more begins with the first.
const maxSaid = 50

// ownPolicy of a page, for the day it is published, allows no script at all; here the header's stands in for it.
var ownPolicy = regexp.MustCompile(`(?i)<meta[^>]+http-equiv=["']?content-security-policy["']?[^>]*>\n?`)

// dressed returns a page as the preview shows it: with the script, and with a bar where there is a notice.
func dressed(page []byte, version string, n *notice) []byte {
	var b bytes.Buffer
	if n != nil {
		b.Write(markup.Page(nil, "", n.writeBar))
	}
	b.WriteString(`<script data-version="` + version + `">` + refreshScript + "</script>\n")
	head, rest := page, []byte(nil)
	if end := bytes.LastIndex(page, []byte("</body>")); end >= 0 {
		head, rest = page[:end], page[end:]
	}
	if at := ownPolicy.FindIndex(head); at != nil {
		head = append(append([]byte{}, head[:at[0]]...), head[at[1]:]...)
	}
	return bytes.Join([][]byte{head, b.Bytes(), rest}, nil)
}

func whole(n *notice) []byte {
	return markup.Page(nil, "", func(w *markup.W) {
		w.Raw(`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="robots" content="noindex">
<title>`).Text(n.Heading).Raw(`</title>
<link rel="stylesheet" href="/-preview/preview.css">
</head>
<body>
<main class="guidecoat-preview whole">
<h1>`).Text(n.Heading).Raw("</h1>\n").With("<p>", n.About, "</p>\n")
		n.writeList(w)
		w.If(n.Home, "<p><a href=\"/\">To the first page</a></p>\n").Raw(`</main>
</body>
</html>
`)
	})
}

// writeBar writes the notice below a page that was good once.
func (n *notice) writeBar(w *markup.W) {
	w.Raw(`<link rel="stylesheet" href="/-preview/preview.css">
<section class="guidecoat-preview bar" role="status" aria-label="Preview">
<p><strong>`).Text(n.Heading).Raw("</strong> This is the last good page.</p>\n")
	n.writeList(w)
	w.Raw("</section>\n")
}

func (n *notice) writeList(w *markup.W) {
	w.Raw("<ul>\n")
	for _, s := range n.Said {
		w.Raw("<li>").With("<code>", s.Place, "</code> ").Text(s.Words).With(` <span class="help">`, s.Help, "</span>").Raw("</li>\n")
	}
	w.With("<li>", n.More, "</li>\n").Raw("</ul>\n")
}

// lines makes an entry of each line of an error, as joined errors have them.
func lines(err error) (list []said) {
	for line := range strings.SplitSeq(err.Error(), "\n") {
		list = append(list, said{Words: clean(line)})
	}
	return list
}
