package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/signal"
	"strconv"
	"sync"
	"syscall"
	"time"

	"guidecoat/journal/view"
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
	w.say("%s, for %s: %s. Ctrl-C ends the preview.", b.dir, b.audience, first.summary)

	ctx, stop := context.WithCancel(ctx)
	defer stop()
	watched := make(chan struct{})
	go func() {
		defer close(watched)
		for said := first.summary; watch.wait(ctx); {
			e := b.next()
			s.show(e)
			if e.summary != said {
				said = e.summary
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
