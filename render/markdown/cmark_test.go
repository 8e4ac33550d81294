package markdown

import (
	"io/fs"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"guidecoat/journal/note"
	"guidecoat/journal/view"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/text"
)

var (
	comments = regexp.MustCompile(`(?s)<!--.*?-->`)
	frontRE  = regexp.MustCompile(`(?s)\A---\n.*?\n---\n`)
)

// The notes of the example read the same through GitHub's own renderer, which
// shares no code with ours.
func TestAgainstCmark(t *testing.T) {
	cmark, err := exec.LookPath("cmark-gfm")
	if err != nil {
		t.Skip("cmark-gfm is not installed (on Debian: apt-get install cmark-gfm)")
	}
	example := os.DirFS("../../example-build")
	read := 0
	err = fs.WalkDir(example, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(p, ".md") {
			return err
		}
		data, err := fs.ReadFile(example, p)
		if err != nil {
			return err
		}
		read++
		body := frontRE.ReplaceAllString(string(data), "")
		// Both show a fault scan as code; ours would be a table with words of its own.
		body = strings.ReplaceAll(comments.ReplaceAllString(body, ""), "```scan ", "```text ")
		command := exec.Command(cmark, "--unsafe", "-e", "table", "-e", "strikethrough", "-e", "tasklist")
		command.Stdin = strings.NewReader(body)
		theirs, err := command.Output()
		if err != nil {
			return err
		}
		doc := note.Markdown.Parser().Parse(text.NewReader([]byte(body)))
		ours, err := New().Body(&view.Body{Doc: func() ast.Node { return doc }, Source: []byte(body)}, pictures)
		if err != nil {
			return err
		}
		checkHTML(t, ours.String())
		parsed(t, ours.String())
		if got, want := textOf(t, ours.String()), textOf(t, string(theirs)); got != want {
			t.Errorf("%s reads\n%s\nby cmark-gfm\n%s", p, got, want)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if read == 0 {
		t.Skip("example-build holds no notes")
	}
	t.Logf("%d notes", read)
}
