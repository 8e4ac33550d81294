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

// ownTheme is the folder beside the build that is laid over the theme.
const ownTheme = "theme"

// themeFlag is for a theme's name, or a folder; a slash tells a folder, so neither hides the other.
func themeFlag(cmd *cobra.Command, to *string) {
	cmd.Flags().Var(parsed[string]{to, func(text string) (string, *badValue) {
		if isFolder(text) {
			return text, nil
		}
		if _, err := themes.Load(text, nil); err != nil {
			return "", &badValue{err.Error(), "For a folder write ./" + text + "."}
		}
		return text, nil
	}}, "theme", "give the pages this `THEME`: "+strings.Join(themes.Names(), ", ")+", or ./FOLDER")
	must(cmd.RegisterFlagCompletionFunc("theme", func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return themes.Names(), cobra.ShellCompDirectiveDefault // files too
	}))
}

func isFolder(theme string) bool {
	return theme == "." || theme == ".." || strings.ContainsAny(theme, `/`+string(filepath.Separator))
}

func addressFlag(cmd *cobra.Command, to *string) {
	cmd.Flags().Var(parsed[string]{to, func(text string) (string, *badValue) {
		if err := render.CheckBaseURL(text); err != nil {
			return "", &badValue{err.Error(), ""}
		}
		return text, nil
	}}, "address", "name the `ADDRESS` where the site will stand, for feeds and previews of links")
	completeNothing(cmd, "address")
}

// theme says aloud what of the look is the builder's own: a folder that came with notes must not apply unseen.
func (w *world) theme(dir, asked string, seen *watched) (*themes.Theme, error) {
	theme, err := loadTheme(dir, asked, seen)
	if err == nil {
		if said := ownSaid(theme, asked); said != "" {
			w.say("%s", said)
		}
		return theme, nil
	}
	faults, ok := errors.AsType[themes.Faults](err)
	if _, told := errors.AsType[*exit](err); told {
		return nil, err
	}
	if !ok {
		return nil, fileTrouble("Nothing was written.", "%v", err)
	}
	for _, f := range faults {
		w.say("%s: error, theme: %s", f.Place, f.What)
	}
	w.say("Nothing was written: put the theme right first.")
	return nil, &exit{code: exitProblems}
}

// ownSaid says which files of the builder's own folder are used; "" where there are none.
func ownSaid(theme *themes.Theme, asked string) string {
	if len(theme.Own) == 0 {
		return ""
	}
	which := ownTheme + "/ beside the build"
	if isFolder(asked) {
		which = strings.TrimSuffix(filepath.ToSlash(asked), "/") + "/"
	}
	return which + " is used: " + strings.Join(theme.Own, ", ")
}

// loadTheme lays "theme" in dir over the theme asked for by name, or the folder asked for over the default.
func loadTheme(dir, asked string, seen *watched) (*themes.Theme, error) {
	name, shown := asked, ownTheme // problems are told from dir
	if isFolder(asked) {
		name, shown = themes.Default, path.Clean(filepath.ToSlash(asked))
		if info, err := os.Stat(asked); err != nil || !info.IsDir() {
			return nil, wrongUsage("A theme's folder holds style.css, touch-in.css, words.txt and pictures.", "there is no folder %s", asked)
		}
	}
	root, err := openTheme(dir, asked)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return themes.Load(name, nil)
	case err != nil:
		return nil, fileTrouble("", "%v", err)
	}
	defer root.Close()
	return themes.Load(name, &themes.Folder{Name: shown, FS: seen.over(root.FS()), Labels: render.Labels})
}

// openTheme opens the folder of the builder's own files, so that no link leads out of it.
func openTheme(dir, asked string) (*os.Root, error) {
	if isFolder(asked) {
		return os.OpenRoot(asked)
	}
	build, err := os.OpenRoot(dir)
	if err != nil {
		return nil, err
	}
	defer build.Close()
	return build.OpenRoot(ownTheme)
}
