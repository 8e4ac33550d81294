package main

import (
	"errors"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"

	"guidecoat/render"
	"guidecoat/themes"

	"github.com/spf13/cobra"
)

// ownTheme is the folder beside the build whose files replace those of the theme.
const ownTheme = "theme"

// themeFlag gives a command the flag for the look of the pages: a theme's name, or
// a folder. A folder is told from a name by its slash, so neither hides the other.
func themeFlag(cmd *cobra.Command, to *string) {
	cmd.Flags().Var(parsed[string]{to, func(text string) (string, *badValue) {
		if isFolder(text) {
			return text, nil
		}
		if _, err := themes.Load(text); err != nil {
			return "", &badValue{err.Error(), "For a folder write ./" + text + "."}
		}
		return text, nil
	}, func(s string) string { return s }}, "theme", "give the pages this `THEME`: "+strings.Join(themes.Names(), ", ")+", or ./FOLDER")
	must(cmd.RegisterFlagCompletionFunc("theme", func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return themes.Names(), cobra.ShellCompDirectiveDefault // files too
	}))
}

func isFolder(theme string) bool {
	return theme == "." || theme == ".." || strings.ContainsAny(theme, `/`+string(filepath.Separator))
}

// baseURLFlag gives a command the flag for where the site will stand.
func baseURLFlag(cmd *cobra.Command, to *string) {
	cmd.Flags().Var(parsed[string]{to, func(text string) (string, *badValue) {
		if err := render.CheckBaseURL(text); err != nil {
			return "", &badValue{err.Error(), ""}
		}
		return text, nil
	}, func(s string) string { return s }}, "base-url", "name the `ADDRESS` where the site will stand, for feeds and previews of links")
	completeNothing(cmd, "base-url")
}

// theme reads the look that was asked for. The folder "theme" in dir is laid over
// a theme asked for by name; a folder asked for is laid over the default.
func (w *world) theme(dir, asked string, seen *watched) (*themes.Theme, error) {
	theme, err := loadTheme(dir, asked, seen)
	if err == nil {
		for _, f := range theme.Unused {
			w.say("%s: warning, theme: %s", f.Place, f.What)
		}
		return theme, nil
	}
	if _, ok := errors.AsType[*exit](err); ok {
		return nil, err
	}
	return nil, w.themeTrouble(err)
}

// loadTheme is theme for who tells of mistakes in a way of their own.
func loadTheme(dir, asked string, seen *watched) (*themes.Theme, error) {
	name, shown := asked, ownTheme // problems are told from dir
	if isFolder(asked) {
		name, shown = themes.Default, path.Clean(filepath.ToSlash(asked))
		if info, err := os.Stat(asked); err != nil || !info.IsDir() {
			return nil, wrongUsage("A theme's folder holds style.css, or templates, or both.", "there is no folder %s", asked)
		}
	}
	var layers []themes.Layer
	root, err := openTheme(dir, asked)
	switch {
	case err == nil:
		defer root.Close()
		layers = append(layers, themes.Layer{Name: shown, FS: seen.over(root.FS())})
	case !errors.Is(err, fs.ErrNotExist):
		return nil, fileTrouble("", "%v", err)
	}
	return themes.Load(name, layers...)
}

// openTheme opens the folder of the builder's own files, so that no link leads out of it.
func openTheme(dir, asked string) (*os.Root, error) {
	if isFolder(asked) {
		return os.OpenRoot(asked)
	}
	return os.OpenRoot(filepath.Join(dir, ownTheme))
}

// themeTrouble tells what is wrong with templates, each mistake at its place. An
// error about anything else is one of files.
func (w *world) themeTrouble(err error) error {
	faults := themes.Faults(err)
	if len(faults) == 0 {
		return fileTrouble("Nothing was written.", "%v", err)
	}
	for _, f := range faults {
		w.say("%s: error, theme: %s", f.Place, f.What)
	}
	w.say("Nothing was written: put the theme right first.")
	return &exit{code: exitProblems}
}
