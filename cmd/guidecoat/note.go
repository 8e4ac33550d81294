package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"slices"
	"strings"
	"unicode"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"

	"github.com/rivo/uniseg"
	"github.com/spf13/cobra"
)

func newNote(w *world) *cobra.Command {
	var title, build string
	var day measure.Date
	var edit bool
	cmd := &cobra.Command{
		Use:   "note [DIR]",
		Short: "Starts today's session note, or a new build.",
		Long: "Starts today's session note in the folder of a build and prints its path. It has the date, the stage that the " +
			"work is in, and in a comment everything outstanding, to copy from. Where that day's note holds nothing yet, it " +
			"prints its path again.\n\nWith --build it starts a new build instead: the " +
			"folder DIR, if need be, and a job card in it. No file is ever overwritten.",
		Example: "guidecoat note --build \"Halden hatchback\" halden\nguidecoat note halden --edit",
		PreRunE: alone("build title", "build as-of"),
	}
	cmd.Flags().StringVar(&title, "title", "", "put this `TEXT` into its file name and heading")
	cmd.Flags().StringVar(&build, "build", "", "start a new build called `NAME`")
	cmd.Flags().BoolVar(&edit, "edit", false, "open it in the editor that $EDITOR names")
	asOf(cmd, &day, "start the note of `DATE` instead of today's")
	completeNothing(cmd, "title")
	completeNothing(cmd, "build")
	return onFolder(cmd, func(cmd *cobra.Command, dir string) error {
		editor := strings.Fields(w.getenv("EDITOR"))
		if edit && len(editor) == 0 {
			return wrongUsage("Set the environment variable EDITOR to the name of your editor.", "--edit does not know which editor to open")
		}
		if day == 0 {
			day = w.today()
		}
		var path string
		var err error
		if cmd.Flags().Changed("build") {
			path, err = w.newBuild(dir, build, day)
		} else {
			path, err = w.newSession(dir, title, day)
		}
		if err != nil {
			return err
		}
		if _, err := fmt.Fprintln(w.stdout, clean(path)); err != nil {
			return cannotPrint(err)
		}
		if edit {
			return w.open(cmd.Context(), editor, path)
		}
		return nil
	})
}

func (w *world) newSession(dir, title string, day measure.Date) (string, error) {
	p, err := w.loadBuild(dir, day, "a note belongs to one build")
	if err != nil {
		return "", err
	}
	name, title := day.String(), strings.Join(strings.Fields(title), " ")
	if err := allSeen("title", title); err != nil {
		return "", err
	}
	if title != "" {
		name += " " + fileName(title)
	}
	name = strings.TrimRight(name, " ")
	if path := unwritten(p.builds[0], name, title); path != "" {
		w.say("%s holds nothing yet, so no other note was started.", filepath.Join(dir, path))
		return filepath.Join(dir, path), nil
	}
	return create(dir, name, sessionText(p.views()[0], title, len(p.builds[0].Sessions) == 0))
}

// unwritten is the note of that name that is as it was made but for comments, "" for none.
func unwritten(b *journal.Build, name, title string) string {
	for _, s := range b.Sessions {
		number, ok := strings.CutPrefix(s.Name(b), name)
		_, body, _ := strings.Cut(string(s.Note.File.Data), "\n---\n")
		if ok && strings.Trim(number, "-0123456789") == "" && strings.TrimSpace(body) == strings.TrimSpace("# "+title) &&
			len(s.Note.Fields) == 0 && !slices.ContainsFunc(s.Note.Lines, func(l *note.Line) bool { return l.Kind.Key != "date" && l.Kind.Key != "stage" }) {
			return s.Name(b) + ".md"
		}
	}
	return ""
}

// allSeen refuses what would be an error in the note: characters that nobody sees.
func allSeen(flag, text string) error {
	if clean(text) == text {
		return nil
	}
	return wrongUsage("Write it without them.", "--%s holds characters that are not seen: %s", flag, text)
}

const most = 99

// create writes a new file of that name, or with a number behind it where there is one.
func create(dir, name, text string) (string, error) {
	for n := 1; n <= most; n++ {
		file := name + ".md"
		if n > 1 {
			file = fmt.Sprintf("%s-%d.md", name, n)
		}
		switch err := writeNew(dir, file, text); {
		case err == nil:
			return filepath.Join(dir, file), nil
		case !errors.Is(err, fs.ErrExist):
			return "", cannotBe("written", filepath.Join(dir, file), err)
		}
	}
	return "", fileTrouble("", "%s holds %d notes called %s already", dir, most, name)
}

// writeNew writes a file that must not exist, and takes it away again if it cannot be written whole.
func writeNew(dir, name, text string) error {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return err
	}
	defer root.Close()
	f, err := root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	_, err = f.WriteString(text)
	if err = errors.Join(err, f.Close()); err != nil {
		_ = root.Remove(name)
	}
	return err
}

// A title gives at most so much to a file's name: file systems take 255 bytes (from memory), date and number included.
const longestName, longestBytes = 80, 200

func fileName(title string) string {
	kept := strings.Map(func(r rune) rune {
		return pick.Either(strings.ContainsRune(`/\:*?"<>|`, r) || !unicode.IsPrint(r), ' ', r)
	}, strings.ToValidUTF8(title, ""))
	cut := ""
	g := uniseg.NewGraphemes(strings.Join(strings.Fields(kept), " "))
	for n := 0; n < longestName && g.Next() && len(cut)+len(g.Str()) <= longestBytes; n++ {
		cut += g.Str()
	}
	return strings.TrimRight(cut, " .")
}

func (w *world) newBuild(dir, name string, day measure.Date) (string, error) {
	name = strings.Join(strings.Fields(name), " ")
	if err := allSeen("build", name); err != nil {
		return "", err
	}
	if name == "" {
		return "", wrongUsage("Write it behind the flag: --build \"Halden hatchback\"", "the build needs a name")
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return "", cannotBe("written", dir, err)
	}
	path := filepath.Join(dir, journal.CardName)
	err := writeNew(dir, journal.CardName, w.cardText(dir, name, day))
	if errors.Is(err, fs.ErrExist) {
		return "", fileTrouble("Nothing was changed. Name another folder for a new build.", "%s is there already", path)
	}
	return path, cannotBe("written", path, err)
}

// open waits until the editor is closed. An interrupt typed meanwhile is the editor's.
func (w *world) open(ctx context.Context, editor []string, path string) error {
	cmd := exec.CommandContext(ctx, editor[0], append(editor[1:], path)...)
	cmd.Stdin, cmd.Stdout, cmd.Stderr = w.stdin, w.stdout, w.stderr
	typed := make(chan os.Signal, 1)
	signal.Notify(typed, os.Interrupt) // not Ignore, which the editor would inherit
	defer signal.Stop(typed)
	if err := cmd.Run(); err != nil {
		return fileTrouble("The note is written all the same: "+path, "the editor %s failed: %v", editor[0], err)
	}
	return nil
}
