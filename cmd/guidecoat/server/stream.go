package server

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"time"
)

// How much is read of one message, and of one line of what stands before it.
const (
	maxMessage = 64 << 20
	maxHeader  = 8 << 10
)

// A stream carries messages as the protocol frames them: a header with the length, an
// empty line, the message. What is no header, or tells of more than is ever read, is
// passed on as a message that is no JSON, so that it is answered as one; the next header
// is then looked for.
type stream struct {
	in   *bufio.Reader
	out  io.Writer
	busy func() bool // whether something that was asked is being answered
	sent atomic.Int64

	mu     sync.Mutex
	closer io.Closer
}

func newStream(in io.Reader, out io.Writer, busy func() bool) *stream {
	s := &stream{in: bufio.NewReaderSize(in, maxHeader), out: out, busy: busy}
	s.closer, _ = in.(io.Closer)
	return s
}

// Recv returns the next message. When there are no more, it waits for the answers to those
// before: the library gives up what is not answered at the end.
func (s *stream) Recv() ([]byte, error) {
	message, err := s.next()
	if err == nil {
		return message, nil
	}
	s.settle()
	return nil, err
}

// settle waits until nothing more is being answered or on its way, though not for ever.
func (s *stream) settle() {
	const pause, quiet, most = 10 * time.Millisecond, 8, 500
	sent := s.sent.Load()
	for idle, n := 0, 0; idle < quiet && n < most; n++ {
		time.Sleep(pause)
		if idle++; s.busy() || s.sent.Load() != sent {
			idle, sent = 0, s.sent.Load()
		}
	}
}

func (s *stream) next() ([]byte, error) {
	size := -1
	for stray := false; ; {
		line, err := s.in.ReadSlice('\n')
		if err != nil && !errors.Is(err, bufio.ErrBufferFull) {
			return nil, io.EOF
		}
		text := strings.ToLower(strings.TrimSpace(string(line)))
		switch at := strings.LastIndex(text, "content-length:"); {
		case at >= 0: // behind the rest of a message whose length lied, as well
			size, stray = -1, stray || at > 0
			if n, err := strconv.ParseUint(strings.TrimSpace(text[at+len("content-length:"):]), 10, 63); err == nil {
				size = int(n)
			} else {
				stray = true
			}
			continue
		case text != "":
			stray = stray || !strings.HasPrefix(text, "content-type:")
			continue
		case size < 0 && !stray: // empty lines between messages
			continue
		}
		if stray && size < 0 {
			return []byte("a header without a length"), nil
		}
		break
	}
	if size > maxMessage {
		if _, err := io.CopyN(io.Discard, s.in, int64(size)); err != nil {
			return nil, io.EOF
		}
		return []byte("a message that is too long"), nil
	}
	var message bytes.Buffer // grows with what comes, not with what was promised
	if n, _ := io.CopyN(&message, s.in, int64(size)); n < int64(size) {
		return nil, io.EOF
	}
	return message.Bytes(), nil
}

// Send writes a message.
func (s *stream) Send(message []byte) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.sent.Add(1)
	_, err := fmt.Fprintf(s.out, "Content-Length: %d\r\n\r\n%s", len(message), message)
	return err
}

// Close lets a reader that waits go.
func (s *stream) Close() error {
	if s.closer == nil {
		return nil
	}
	return s.closer.Close()
}
