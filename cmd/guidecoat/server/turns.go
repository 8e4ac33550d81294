package server

import (
	"context"
	"strings"
	"sync"
	"sync/atomic"

	"github.com/creachadair/jrpc2"
	"github.com/creachadair/jrpc2/handler"
)

// Turns give each message its turn in the order in which they came. Questions are answered
// beside each other; what changes something waits for all before it, and all behind it
// wait for that. So a question is always about the text that stood when it was asked.
type turns struct {
	handler.Map
	answering *atomic.Int32 // how many are under way

	after  chan struct{}   // closed when the last change is done
	beside *sync.WaitGroup // the questions since
}

// noLimit is how many may be under way: those that wait must not keep others out.
const noLimit = 1 << 20

func newTurns(handlers handler.Map, answering *atomic.Int32) *turns {
	t := &turns{Map: handlers, answering: answering, after: make(chan struct{}), beside: &sync.WaitGroup{}}
	close(t.after)
	return t
}

// Assign is called for one message after the other.
func (t *turns) Assign(ctx context.Context, method string) jrpc2.Handler {
	h := t.Map.Assign(ctx, method)
	if h == nil {
		return nil
	}
	t.answering.Add(1)
	after, beside := t.after, t.beside
	if question := strings.HasPrefix(method, "textDocument/") && !strings.HasPrefix(method, "textDocument/did") || method == "workspace/symbol"; question {
		beside.Add(1)
		return func(ctx context.Context, r *jrpc2.Request) (any, error) {
			defer t.answering.Add(-1)
			defer beside.Done()
			<-after
			return h(ctx, r)
		}
	}
	done := make(chan struct{})
	t.after, t.beside = done, &sync.WaitGroup{}
	return func(ctx context.Context, r *jrpc2.Request) (any, error) {
		defer t.answering.Add(-1)
		defer close(done)
		<-after
		beside.Wait()
		return h(ctx, r)
	}
}
