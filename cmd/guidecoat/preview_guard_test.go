package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"strings"
	"testing"
	"time"
)

// It answers at the loopback address and at no other that this machine has.
func TestPreviewIsOnLoopbackAlone(t *testing.T) {
	p := previewBuild(t)
	port := p.url[strings.LastIndex(p.url, ":")+1 : len(p.url)-1]
	addresses, err := net.InterfaceAddrs()
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range addresses {
		ip, _, err := net.ParseCIDR(a.String())
		if err != nil || ip.IsLoopback() && ip.Equal(net.IPv4(127, 0, 0, 1)) {
			continue
		}
		conn, err := net.DialTimeout("tcp", net.JoinHostPort(ip.String(), port), time.Second)
		if err == nil {
			conn.Close()
			t.Errorf("it answers at %s", ip)
		}
	}
}

func TestPreviewRefuses(t *testing.T) {
	p := previewBuild(t)
	port := p.url[strings.LastIndex(p.url, ":")+1 : len(p.url)-1]
	ask := func(method, host, target string) int {
		t.Helper()
		conn, err := net.Dial("tcp", "127.0.0.1:"+port)
		if err != nil {
			t.Fatal(err)
		}
		defer conn.Close()
		fmt.Fprintf(conn, "%s %s HTTP/1.1\r\nHost: %s\r\nConnection: close\r\n\r\n", method, target, host)
		resp, err := http.ReadResponse(bufio.NewReader(conn), &http.Request{Method: method})
		if err != nil {
			t.Fatal(err)
		}
		defer resp.Body.Close()
		if data, _ := io.ReadAll(resp.Body); resp.StatusCode != http.StatusOK && (bytes.Contains(data, []byte("It came off")) || bytes.Contains(data, []byte("An estate"))) {
			t.Errorf("%s %s %s tells of the notes", method, host, target)
		}
		return resp.StatusCode
	}
	for _, host := range []string{"127.0.0.1:" + port, "localhost:" + port, "LocalHost:" + port, "[::1]:" + port} {
		if got := ask("GET", host, "/"); got != http.StatusOK {
			t.Errorf("%s: %d", host, got)
		}
	}
	for _, host := range []string{"localhost", "127.0.0.1", "evil.example", "evil.example:" + port, "localhost.evil.example:" + port, "localhost:1", "127.0.0.2:" + port, "0.0.0.0:" + port} {
		if got := ask("GET", host, "/"); got != http.StatusForbidden {
			t.Errorf("%s: %d", host, got)
		}
	}
	here := "localhost:" + port
	for _, method := range []string{"POST", "PUT", "DELETE", "OPTIONS", "PATCH", "TRACE"} {
		if got := ask(method, here, "/"); got != http.StatusMethodNotAllowed {
			t.Errorf("%s: %d", method, got)
		}
	}
	if got := ask("HEAD", here, "/index.html"); got != http.StatusOK {
		t.Errorf("HEAD: %d", got)
	}
	for _, target := range []string{"/build.md", "/2026-04-11.md", "/../build.md", "/%2e%2e/build.md", "/sessions/../build.md", "/sessions/..%2f..%2fbuild.md", "//build.md", "/./index.html", "/sessions//index.html",
		"/..\\build.md", "/%00", "/index.html%00", "/.guidecoat", "/sessions", "/-preview/", "/-preview/refresh.js", "/no.html", "/etc/passwd", "/" + strings.Repeat("a", 8000)} {
		if got := ask("GET", here, target); got != http.StatusNotFound {
			t.Errorf("%.40s: %d", target, got)
		}
	}
}

// However many pages are open, another one hears of changes: the one that has heard
// longest makes room, and asks again.
func TestPreviewHearsAnother(t *testing.T) {
	p := previewBuild(t)
	ask := "GET " + eventsPath + " HTTP/1.1\r\nHost: " + p.host() + "\r\n\r\n"
	var first net.Conn
	for i := range 2*maxConnections + 3 {
		conn := p.dial(ask)
		if text := heard(t, conn); !strings.Contains(text, "data: ") {
			t.Fatalf("the %d. hears %q", i+1, text)
		}
		if i == 0 {
			first = conn
		}
	}
	if _, ended := answered(t, first, 20*time.Second); !ended {
		t.Error("the first goes on")
	}
	p.holds("", http.StatusOK)
	if code := p.stop(); code != exitDone {
		t.Errorf("exit code %d", code)
	}
}

func (p *previewed) host() string { return strings.Trim(strings.TrimPrefix(p.url, "http:"), "/") }

// heard reads up to what the stream says first.
func heard(t *testing.T, conn net.Conn) string {
	t.Helper()
	if err := conn.SetReadDeadline(time.Now().Add(20 * time.Second)); err != nil {
		t.Fatal(err)
	}
	var all []byte
	for b := make([]byte, 512); !bytes.Contains(all, []byte("data: ")); {
		n, err := conn.Read(b)
		if all = append(all, b[:n]...); err != nil {
			break
		}
	}
	return string(all)
}

// dial opens a connection of its own to the preview, and sends the text.
func (p *previewed) dial(text string) net.Conn {
	p.t.Helper()
	conn, err := net.Dial("tcp", p.host())
	if err != nil {
		p.t.Fatal(err)
	}
	p.t.Cleanup(func() { conn.Close() })
	if _, err := io.WriteString(conn, text); err != nil {
		p.t.Fatal(err)
	}
	return conn
}

// answered returns what comes within that time, and whether the connection ends.
func answered(t *testing.T, conn net.Conn, within time.Duration) (text string, ended bool) {
	t.Helper()
	if err := conn.SetReadDeadline(time.Now().Add(within)); err != nil {
		t.Fatal(err)
	}
	data, err := io.ReadAll(conn)
	return string(data), !errors.Is(err, os.ErrDeadlineExceeded)
}

// Whoever begins to ask and does not come to the end, or asks at great length, is
// not waited for.
func TestPreviewIsNotHeldUp(t *testing.T) {
	t.Parallel()
	p := previewBuild(t)
	long := p.dial("GET / HTTP/1.1\r\nX: " + strings.Repeat("x", 2*maxHeader))
	if text, ended := answered(t, long, readTime/2); !ended || !strings.HasPrefix(text, "HTTP/1.1 431 ") {
		t.Errorf("a long question: ended %v, %.40q", ended, text)
	}
	head, body := p.dial("GET / HTTP/1.1\r\nHost: "), p.dial("POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 9\r\n\r\n")
	for what, conn := range map[string]net.Conn{"a head": head, "a body": body} {
		if _, ended := answered(t, conn, 2*readTime); !ended {
			t.Errorf("%s that does not end is waited for", what)
		}
	}
	p.holds("", http.StatusOK)
}

// Nobody is shut out by connections that ask nothing, ask without coming to an end, or
// do not read the answer.
func TestPreviewMakesRoom(t *testing.T) {
	t.Parallel()
	p := previewBuild(t)
	ask := "GET / HTTP/1.1\r\nHost: " + p.host() + "\r\n"
	for _, held := range []string{"", "GET /", ask, ask + "\r\n", "GET " + eventsPath + " HTTP/1.1\r\nHost: " + p.host() + "\r\n\r\n"} {
		var first net.Conn
		for range 2 * maxConnections {
			if conn := p.dial(held); first == nil {
				first = conn
			}
		}
		late := p.dial(ask + "Connection: close\r\n\r\n")
		if text, _ := answered(t, late, readTime/2); !strings.HasPrefix(text, "HTTP/1.1 200 ") {
			t.Errorf("beside those that say %q the answer is %.40q", held, text)
		}
		if _, ended := answered(t, first, readTime/2); !ended {
			t.Errorf("the first that says %q stays", held)
		}
	}
}
