package main

import (
	"bufio"
	"bytes"
	"context"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

const (
	previewCard = "---\nbuild: Halden\ncurrency: GBP\nstages:\n  strip: budget 100 200 300\n---\nAn estate.\n"
	previewNote = "---\ndate: 2026-04-11\nstage: strip\n---\n# Beam out\n\nIt came off.\n"
	brokenNote  = "---\ndate: 2026-04-11\nstage: strp\ncost:\n  - 1.00 <b>bolt</b>; <script>alert(1)</script>\n---\n# Beam out\n"
	notePage    = "sessions/2026-04-11.html"
)

// A previewed is a preview that runs, on a folder with a build of one note.
type previewed struct {
	t      testing.TB
	dir    string
	url    string // with a slash at its end
	stderr *bytes.Buffer
	stop   func() int // ends it and returns the exit code; may be called again
}

func startPreview(t testing.TB, dir string, args ...string) *previewed {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	out, in := io.Pipe()
	p := &previewed{t: t, dir: dir, stderr: &bytes.Buffer{}}
	ended := make(chan int, 1)
	go func() {
		defer in.Close()
		ended <- run(ctx, world{append([]string{"preview", dir}, args...), nil, in, p.stderr, func(string) string { return "" }, time.Now, ""})
	}()
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatalf("it ended with %d: %s", <-ended, p.stderr)
	}
	p.url = strings.TrimSuffix(line, "\n")
	p.stop = func() int {
		cancel()
		select {
		case code := <-ended:
			ended <- code
			return code
		case <-time.After(10 * time.Second):
			t.Fatal("it does not end")
			return -1
		}
	}
	t.Cleanup(func() { p.stop() })
	return p
}

func previewBuild(t testing.TB, args ...string) *previewed {
	dir := t.TempDir()
	p := &previewed{t: t, dir: dir}
	p.write("build.md", previewCard)
	p.write("2026-04-11.md", previewNote)
	return startPreview(t, dir, args...)
}

// write saves a file in one step, as most editors do: a version between two would be
// one more than the tests wait for.
func (p *previewed) write(name, data string) {
	p.t.Helper()
	path := filepath.Join(p.dir, name)
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		p.t.Fatal(err)
	}
	saved := filepath.Join(p.t.TempDir(), "saved")
	if err := os.WriteFile(saved, []byte(data), 0o644); err != nil {
		p.t.Fatal(err)
	}
	if err := os.Rename(saved, path); err != nil {
		p.t.Fatal(err)
	}
}

// get fetches a page and holds the answer to what every answer must have.
func (p *previewed) get(path string) (status int, body string, h http.Header) {
	p.t.Helper()
	resp, err := (&http.Client{Timeout: 30 * time.Second}).Get(p.url + path)
	if err != nil {
		p.t.Fatal(err)
	}
	defer resp.Body.Close()
	data, err := io.ReadAll(resp.Body)
	if err != nil {
		p.t.Fatal(err)
	}
	for name, want := range map[string]string{
		"Cache-Control": "no-store", "X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer", "X-Frame-Options": "DENY",
		"Cross-Origin-Resource-Policy": "same-origin", "Cross-Origin-Opener-Policy": "same-origin",
	} {
		if resp.Header.Get(name) != want {
			p.t.Errorf("%s: %s is %q", path, name, resp.Header.Get(name))
		}
	}
	if !strings.HasPrefix(resp.Header.Get("Content-Security-Policy"), "default-src 'none'; ") {
		p.t.Errorf("%s: the policy is %q", path, resp.Header.Get("Content-Security-Policy"))
	}
	return resp.StatusCode, string(data), resp.Header
}

// holds fetches a page and holds it to a status and words.
func (p *previewed) holds(path string, status int, words ...string) string {
	p.t.Helper()
	got, body, _ := p.get(path)
	if got != status {
		p.t.Errorf("%s: status %d, want %d", path, got, status)
	}
	for _, word := range words {
		if !strings.Contains(body, word) {
			p.t.Errorf("%s does not hold %q:\n%s", path, word, body)
		}
	}
	return body
}

// listen returns the versions that a page is told of. The first is there at once.
func (p *previewed) listen() <-chan string {
	p.t.Helper()
	resp, err := http.Get(p.url + eventsPath[1:])
	if err != nil {
		p.t.Fatal(err)
	}
	if resp.StatusCode != http.StatusOK || resp.Header.Get("Content-Type") != "text/event-stream" {
		p.t.Fatal(resp.Status)
	}
	p.t.Cleanup(func() { resp.Body.Close() })
	versions := make(chan string, 1000)
	go func() {
		defer close(versions)
		last := ""
		for in := bufio.NewScanner(resp.Body); in.Scan(); {
			if v, ok := strings.CutPrefix(in.Text(), "data: "); ok && v != last {
				last = v
				versions <- v
			}
		}
	}()
	return versions
}

func next(t testing.TB, versions <-chan string) string {
	t.Helper()
	select {
	case v, ok := <-versions:
		if !ok {
			t.Fatal("the events have ended")
		}
		return v
	case <-time.After(20 * time.Second):
		t.Fatal("nothing is told")
	}
	return ""
}

func TestPreviewRefreshes(t *testing.T) {
	p := previewBuild(t)
	versions := p.listen()
	v := next(t, versions)
	body := p.holds(notePage, http.StatusOK, "It came off.", `<script data-version="`+v+`">`)
	if strings.Contains(body, `http-equiv="Content-Security-Policy"`) || strings.Contains(body, "guidecoat-preview bar") {
		t.Errorf("the page holds a policy that stops the script, or a bar:\n%s", body)
	}
	if _, _, h := p.get(notePage); !strings.Contains(h.Get("Content-Security-Policy"), "script-src 'sha256-") {
		t.Errorf("the policy is %q", h.Get("Content-Security-Policy"))
	}
	p.write("2026-04-11.md", previewNote+"\nAnd went back on.\n")
	w := next(t, versions)
	if v == w {
		t.Error("the version is the same")
	}
	p.holds(notePage, http.StatusOK, "And went back on.", w)
	p.write("2026-04-12.md", "# Second day\n")
	next(t, versions)
	p.holds("sessions/2026-04-12.html", http.StatusOK, "Second day")
	if err := os.Remove(filepath.Join(p.dir, "2026-04-12.md")); err != nil {
		t.Fatal(err)
	}
	next(t, versions)
	p.holds("sessions/2026-04-12.html", http.StatusNotFound, "There is no such page.", "<script data-version=")
	if _, css, h := p.get("style.css"); h.Get("Content-Type") != "text/css; charset=utf-8" || strings.Contains(css, "<script") {
		t.Error("the style is not as it was made")
	}
	if code := p.stop(); code != exitDone {
		t.Errorf("exit code %d", code)
	}
	if _, open := <-versions; open {
		t.Error("the events go on")
	}
}

func TestPreviewKeepsTheLastGoodPage(t *testing.T) {
	p := previewBuild(t)
	versions := p.listen()
	next(t, versions)
	p.write("2026-04-11.md", brokenNote)
	next(t, versions)
	body := p.holds(notePage, http.StatusOK, "It came off.", "This is the last good page.", "2026-04-11.md:3:8", "unknown-stage", "&lt;script&gt;")
	if strings.Contains(body, "<script>") || strings.Contains(body, "<b>bolt") {
		t.Error("words of a note have become markup")
	}
	if err := os.Remove(filepath.Join(p.dir, "build.md")); err != nil {
		t.Fatal(err)
	}
	next(t, versions)
	p.holds("", http.StatusOK, "The notes cannot be read.", "there is no build.md here")
	p.write("build.md", previewCard)
	p.write("2026-04-11.md", previewNote)
	for {
		next(t, versions)
		if _, body, _ := p.get(notePage); !strings.Contains(body, "last good page") {
			break
		}
	}
}

func TestPreviewOfABuildThatBeginsWithErrors(t *testing.T) {
	dir := t.TempDir()
	p := &previewed{t: t, dir: dir}
	p.write("build.md", previewCard)
	p.write("2026-04-11.md", brokenNote)
	p = startPreview(t, dir)
	versions := p.listen()
	next(t, versions)
	p.holds("", http.StatusServiceUnavailable, "<h1>The notes hold 2 errors.</h1>", "2026-04-11.md:3:8", "&lt;script&gt;", "<script data-version=")
	p.write("2026-04-11.md", previewNote)
	next(t, versions)
	p.holds("", http.StatusOK, "Halden")
}

// That the builder's own theme is used is told on the terminal.
func TestPreviewTellsOfOwnTheme(t *testing.T) {
	dir := t.TempDir()
	p := &previewed{t: t, dir: dir}
	p.write("build.md", previewCard)
	p.write("theme/touch-in.css", "body { margin: 0 }")
	p = startPreview(t, dir)
	next(t, p.listen()) // by then it has said how the build stands
	p.stop()
	if want := "theme/ beside the build is used: touch-in.css"; !strings.Contains(p.stderr.String(), want) {
		t.Errorf("%q is not in %q", want, p.stderr)
	}
}

// Of a garage the front page is shown, and the site of each build in its folder.
func TestPreviewOfAGarage(t *testing.T) {
	dir := t.TempDir()
	p := &previewed{t: t, dir: dir}
	p.write("garage.md", "---\ngarage: The lean-to\ncurrency: GBP\n---\n")
	for _, build := range []string{"halden/", "wagon/"} {
		p.write(build+"build.md", previewCard)
		p.write(build+"2026-04-11.md", previewNote)
	}
	p.write("halden/a.png", string(greyPicture(t, 900, 30, 5)))
	p.write("halden/2026-04-11.md", previewNote+"\n![the beam](a.png)\n")
	p = startPreview(t, dir)
	versions := p.listen()
	v := next(t, versions)
	p.holds("", http.StatusOK, "The lean-to", `href="halden/index.html"`, `href="wagon/index.html"`, `<script data-version="`+v+`">`)
	body := p.holds("halden/"+notePage, http.StatusOK, "It came off.", `href="../../index.html"`)
	_, picture, _ := strings.Cut(body, `src="../pictures/`)
	picture, _, _ = strings.Cut(picture, `"`)
	if status, _, h := p.get("halden/pictures/" + picture); status != http.StatusOK || h.Get("Content-Type") != "image/png" {
		t.Errorf("the picture %q: %d", picture, status)
	}
	p.holds("pictures/"+picture, http.StatusNotFound)
	p.holds("halden", http.StatusNotFound)
	p.write("wagon/2026-04-11.md", brokenNote)
	next(t, versions)
	p.holds("halden/"+notePage, http.StatusOK, "It came off.", "This is the last good page.", "wagon/2026-04-11.md:3:8", "unknown-stage")
	p.write("wagon/2026-04-11.md", previewNote+"\nAnd went back on.\n")
	next(t, versions)
	p.holds("wagon/"+notePage, http.StatusOK, "And went back on.")
	if body := p.holds("halden/"+notePage, http.StatusOK, "It came off."); strings.Contains(body, "last good page") {
		t.Error("the bar stays")
	}
	p.write("third/build.md", previewCard)
	next(t, versions)
	p.holds("", http.StatusOK, `href="third/index.html"`)
}

// A warning keeps no page back. It stands on the note as typed, with what its lines were understood to say, and the
// terminal counts it; one error does keep the page.
func TestPreviewTellsOfWarnings(t *testing.T) {
	p := previewBuild(t)
	versions := p.listen()
	next(t, versions)
	p.write("2026-04-11.md", "---\nstage: strip\ntime: 19:30-21:15 swept up\ncost: 144.00 delivery as transport\n---\n# It came off\n\nWith a bar.\n")
	next(t, versions)
	if body := p.holds(notePage, http.StatusOK, "With a bar."); strings.Contains(body, "last good page") {
		t.Error("a warning keeps the page back")
	}
	p.holds("notes/2026-04-11.html", http.StatusOK, "missing-semicolon", "1\u00a0warning<", "1h 45m")
	p.write("2026-04-11.md", "---\nstage: strip\ncost: twelve hose\n---\n# It came off\n")
	next(t, versions)
	p.holds(notePage, http.StatusOK, "With a bar.", "The notes hold 1 error.")
	p.stop()
	if want := "1 warning in 2 notes"; !strings.Contains(p.stderr.String(), want) {
		t.Errorf("%q is not in %q", want, p.stderr)
	}
}

// A page lists as many errors as somebody would read, and counts the rest.
func TestExplainListsTheFirst(t *testing.T) {
	errs := make([]problem.Problem, maxSaid+2)
	for i := range errs {
		errs[i] = problem.Problem{Check: "bad-date", Message: "no date", Span: source.NewFile("a.md", []byte("x")).Span(0, 1)}
	}
	for n, more := range map[int]string{1: "", maxSaid: "", maxSaid + 1: "And 1 more.", maxSaid + 2: "And 2 more."} {
		if got := explain(errs[:n]); got.More != more || len(got.Said) != min(n, maxSaid) || got.Said[0].Place != "a.md:1:1" {
			t.Errorf("of %d errors it says %d, then %q", n, len(got.Said), got.More)
		}
	}
}
