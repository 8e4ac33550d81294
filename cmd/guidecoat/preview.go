package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/signal"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"time"

	"guidecoat/journal/view"
	"guidecoat/render/markup"
	"guidecoat/themes"

	"github.com/spf13/cobra"
)

func newPreview(w *world) *cobra.Command {
	b := &workbench{w: w, audience: view.ForWorkshop, theme: themes.Default}
	var port uint16
	cmd := &cobra.Command{
		Use:   "preview [DIR]",
		Short: "Shows the site while you write.",
		Long: "Serves the site on this machine alone, and refreshes the open page when a note is saved. It prints the address to open in " +
			"a browser. Ctrl-C ends it.\n\nOf a garage it shows the front page and the sites of its builds. " +
			"While the notes hold errors the last good page stays, with the errors and their places below it. " +
			"Nothing is written beside the notes.",
		Example: "guidecoat preview halden\nguidecoat preview halden --for public --port 8080",
	}
	audienceFlag(cmd, &b.audience)
	cmd.Flags().Uint16Var(&port, "port", 0, "use the port of this `NUMBER` instead of a free one")
	completeNothing(cmd, "port")
	themeFlag(cmd, &b.theme)
	return onFolder(cmd, func(cmd *cobra.Command, dir string) error {
		b.dir, b.seen.dir, b.pictures = dir, dir, w.store("pictures")
		ctx, stop := signal.NotifyContext(cmd.Context(), os.Interrupt, syscall.SIGTERM)
		defer stop()
		return w.preview(ctx, b, port)
	})
}

func (w *world) preview(ctx context.Context, b *workbench, port uint16) error {
	fsys, err := openFolder(b.dir)
	if err != nil {
		return err
	}
	watch := newWatcher(fsys) // before the first reading, so that no change falls between
	p, err := b.load()
	if err != nil {
		return err
	}
	listener, err := net.Listen("tcp4", net.JoinHostPort("127.0.0.1", strconv.Itoa(int(port))))
	if err != nil {
		return fileTrouble("Choose another with --port, or leave it out.", "port %d cannot be used: %v", port, reasonOf(err))
	}
	first := b.edition(p)
	s := newPreviewServer(listener.Addr().(*net.TCPAddr).Port)
	s.show(first)
	if _, err := fmt.Fprintf(w.stdout, "http://%s/\n", listener.Addr()); err != nil {
		listener.Close()
		return cannotPrint(err)
	}
	said := first.summary()
	w.say("%s, for %s: %s. Ctrl-C ends the preview.", b.dir, b.audience, said)

	ctx, stop := context.WithCancel(ctx)
	defer stop()
	watched := make(chan struct{})
	go func() {
		defer close(watched)
		for watch.wait(ctx) {
			e := b.next()
			s.show(e)
			if now := e.summary(); now != said {
				said = now
				w.say("%s", said)
			}
		}
	}()
	err = s.serve(ctx, listener)
	stop()
	<-watched
	return err
}

func reasonOf(err error) error {
	if op, ok := errors.AsType[*net.OpError](err); ok {
		return op.Err
	}
	return err
}

const (
	maxHeader = 16 << 10
	readTime  = 5 * time.Second
	writeTime = time.Minute // a picture may have to be made first
	closeTime = 2 * time.Second
)

// serve answers until the context ends, then lets what is under way come to its end.
func (s *previewServer) serve(ctx context.Context, l net.Listener) error {
	server := &http.Server{
		Handler: s, BaseContext: func(net.Listener) context.Context { return ctx },
		ReadHeaderTimeout: readTime, ReadTimeout: readTime, WriteTimeout: writeTime, IdleTimeout: writeTime, MaxHeaderBytes: maxHeader,
		ConnContext: s.room.admit, ConnState: s.room.forget, DisableGeneralOptionsHandler: true,
	}
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(l) }()
	select {
	case err := <-ended:
		return fileTrouble("", "the preview ended: %v", err)
	case <-ctx.Done():
	}
	wait, cancel := context.WithTimeout(context.WithoutCancel(ctx), closeTime)
	defer cancel()
	if server.Shutdown(wait) != nil {
		server.Close()
	}
	return nil
}

// Bounds of the server. A browser with a dozen open pages stays far below them.
const (
	maxConnections = 128
	maxListeners   = 32
)

// A room is full of connections at some time. Whoever comes then takes the place of another, so that nobody is shut out.
type room struct {
	mu     sync.Mutex
	guests map[net.Conn]*guest
	moves  int
}

type guest struct {
	does  doing
	since int // by the moves there were
}

// What a connection does. The lower goes first, of those alike the one that does so longest.
type doing int

const (
	silent  doing = iota // has asked nothing, or not to the end
	asking               // waits for a page
	hearing              // hears of changes
)

type guestKey struct{}

func (r *room) admit(ctx context.Context, c net.Conn) context.Context {
	r.move(c, silent)
	return context.WithValue(ctx, guestKey{}, c)
}

func (r *room) forget(c net.Conn, state http.ConnState) {
	if state == http.StateClosed {
		r.mu.Lock()
		defer r.mu.Unlock()
		delete(r.guests, c)
	}
}

func (r *room) turn(of *http.Request, to doing) {
	if c, ok := of.Context().Value(guestKey{}).(net.Conn); ok {
		r.move(c, to)
	}
}

func (r *room) move(c net.Conn, to doing) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.moves++
	r.guests[c] = &guest{to, r.moves}
	listeners := 0
	var first, firstListener net.Conn
	for other, g := range r.guests {
		if g.does == hearing {
			listeners++
			if firstListener == nil || g.since < r.guests[firstListener].since {
				firstListener = other
			}
		}
		if f := r.guests[first]; other != c && (f == nil || g.does < f.does || g.does == f.does && g.since < f.since) {
			first = other
		}
	}
	switch {
	case listeners > maxListeners:
		r.end(firstListener)
	case len(r.guests) > maxConnections:
		r.end(first)
	}
}

func (r *room) end(c net.Conn) {
	delete(r.guests, c)
	c.Close()
}

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
