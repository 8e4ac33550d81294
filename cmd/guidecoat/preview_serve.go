package main

import (
	"cmp"
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"net"
	"net/http"
	"path"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"guidecoat/render"
	placing "guidecoat/render/place"
)

// A previewServer answers with the last good edition, and with no file by the path that was asked for.
type previewServer struct {
	hosts  []string      // as which a browser may address it
	run    string        // tells this run from the one before at the same port
	making chan struct{} // bounds how many files are made at once, since pictures are large

	room room

	mu      sync.Mutex
	edition int
	draft   *render.Draft // the last good one; nil while there was none
	trouble *notice       // what is wrong with the notes now; nil if nothing
	changed chan struct{} // closed when the next edition is there
}

const (
	eventsPath = "/-preview/events"
	stylePath  = "/-preview/preview.css"
)

func newPreviewServer(port int) *previewServer {
	s := &previewServer{run: rand.Text()[:8], making: make(chan struct{}, runtime.GOMAXPROCS(0)), changed: make(chan struct{}), room: room{guests: map[net.Conn]*guest{}}}
	for _, name := range []string{"127.0.0.1", "localhost", "[::1]"} {
		s.hosts = append(s.hosts, name+":"+strconv.Itoa(port))
		if port == 80 { // browsers leave it out
			s.hosts = append(s.hosts, name)
		}
	}
	return s
}

func (s *previewServer) show(e edition) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.edition++
	if s.trouble = e.trouble; e.draft != nil {
		s.draft = e.draft
	}
	close(s.changed)
	s.changed = make(chan struct{})
}

type shown struct {
	version string
	draft   *render.Draft
	trouble *notice
	changed <-chan struct{}
}

func (s *previewServer) now() shown {
	s.mu.Lock()
	defer s.mu.Unlock()
	return shown{s.run + "-" + strconv.Itoa(s.edition), s.draft, s.trouble, s.changed}
}

// ServeHTTP turns away who does not address this machine by its name: a page from elsewhere could read the notes.
func (s *previewServer) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	s.room.turn(r, asking)
	defer s.room.turn(r, silent)
	h := w.Header()
	h.Set("Cache-Control", "no-store")
	h.Set("Content-Security-Policy", filePolicy)
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("X-Frame-Options", "DENY")
	switch {
	case !slices.Contains(s.hosts, strings.ToLower(r.Host)):
		http.Error(w, "This preview answers on this machine alone.", http.StatusForbidden)
	case r.Method != http.MethodGet && r.Method != http.MethodHead:
		h.Set("Allow", "GET, HEAD")
		http.Error(w, "This preview can only be read.", http.StatusMethodNotAllowed)
	case r.URL.Path == eventsPath:
		s.events(w, r)
	case r.URL.Path == stylePath:
		s.send(w, http.StatusOK, stylePath, previewStyle)
	case r.URL.Path == "/favicon.ico": // browsers ask for it unbidden, and complain
		w.WriteHeader(http.StatusNoContent)
	default:
		s.file(w, r)
	}
}

func (s *previewServer) file(w http.ResponseWriter, r *http.Request) {
	now := s.now()
	name := strings.TrimPrefix(r.URL.Path, "/")
	if name == "" || strings.HasSuffix(name, "/") {
		name += "index.html"
	}
	var data []byte
	var err error = fs.ErrNotExist
	if fs.ValidPath(name) && !strings.ContainsAny(name, "\\\x00") {
		if now.draft == nil {
			n := *now.trouble
			n.About = "Once they are put right the page shows by itself."
			s.page(w, http.StatusServiceUnavailable, now, whole(&n))
			return
		}
		data, err = s.fetch(now.draft, name)
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		s.page(w, http.StatusNotFound, now, whole(&notice{Heading: "There is no such page.", Home: true}))
	case err != nil:
		s.page(w, http.StatusInternalServerError, now, whole(&notice{Heading: "The page cannot be made.", Said: lines(err), Home: true}))
	case path.Ext(name) == ".html":
		s.page(w, http.StatusOK, now, data)
	default:
		s.send(w, http.StatusOK, name, data)
	}
}

func (s *previewServer) fetch(d *render.Draft, name string) ([]byte, error) {
	s.making <- struct{}{}
	defer func() { <-s.making }()
	files, err := d.Make(name)
	if err != nil {
		return nil, err
	}
	at := slices.IndexFunc(files, func(f placing.File) bool { return f.Path == name })
	if at < 0 {
		return nil, fs.ErrNotExist
	}
	return files[at].Data, nil
}

// page answers with a page, which will be refreshed. One that is older than the notes says so.
func (s *previewServer) page(w http.ResponseWriter, status int, now shown, page []byte) {
	bar := now.trouble
	if status != http.StatusOK {
		bar = nil
	}
	w.Header().Set("Content-Security-Policy", pagePolicy)
	s.send(w, status, "page.html", dressed(page, now.version, bar))
}

// kinds are those of the files of a site. What is of no known kind is only saved.
var kinds = map[string]string{
	".html": "text/html; charset=utf-8", ".css": "text/css; charset=utf-8", ".txt": "text/plain; charset=utf-8", ".csv": "text/csv; charset=utf-8",
	".json": "application/json", ".xml": "text/xml; charset=utf-8", ".pdf": "application/pdf",
	".jpg": "image/jpeg", ".jpeg": "image/jpeg", ".png": "image/png", ".gif": "image/gif", ".webp": "image/webp",
}

func (s *previewServer) send(w http.ResponseWriter, status int, name string, data []byte) {
	kind := cmp.Or(kinds[strings.ToLower(path.Ext(name))], "application/octet-stream")
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Content-Length", strconv.Itoa(len(data)))
	w.WriteHeader(status)
	_, _ = w.Write(data) // whoever has gone away needs no answer
}

// events tells a page which edition is current, now and at every change.
func (s *previewServer) events(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Content-Type", "text/event-stream")
	if r.Method == http.MethodHead {
		return
	}
	s.room.turn(r, hearing)
	out := http.NewResponseController(w)
	_ = out.SetReadDeadline(time.Time{}) // nothing more is read; the limit would end it
	_, _ = fmt.Fprint(w, "retry: 500\n")
	beat := time.NewTicker(writeTime / 4)
	defer beat.Stop()
	for {
		now := s.now()
		_ = out.SetWriteDeadline(time.Now().Add(readTime))
		if _, err := fmt.Fprintf(w, "data: %s\n\n", now.version); err != nil || out.Flush() != nil {
			return
		}
		select {
		case <-r.Context().Done(): // the page is gone, or the preview ends
			return
		case <-now.changed:
		case <-beat.C: // finds out about pages that went without a word
		}
	}
}
