package main

import (
	"context"
	"net"
	"net/http"
	"sync"
)

// Bounds of the server. A browser with a dozen open pages stays far below them.
const (
	maxConnections = 128
	maxListeners   = 32
)

// A room is where connections stay. Whoever comes in when it is full takes the place
// of another, so that nobody is shut out by those who hold on to theirs.
type room struct {
	mu     sync.Mutex
	guests map[net.Conn]*guest
	moves  int
}

// A guest is one connection.
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

// admit is for a server that has a new connection.
func (r *room) admit(ctx context.Context, c net.Conn) context.Context {
	r.move(c, silent)
	return context.WithValue(ctx, guestKey{}, c)
}

// forget is for a server whose connections change.
func (r *room) forget(c net.Conn, state http.ConnState) {
	if state == http.StateClosed {
		r.mu.Lock()
		defer r.mu.Unlock()
		delete(r.guests, c)
	}
}

// turn says what the connection of a request does from now on.
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
