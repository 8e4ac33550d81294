package main

import (
	"fmt"
	"os"
	"runtime/debug"

	"guidecoat/cmd/guidecoat/server"

	"github.com/spf13/cobra"
)

// typingGCPercent lets garbage lie for longer than a single run does: each keystroke leaves
// nearly as much as is in use, and somebody waits for it.
const typingGCPercent = 400

func newLanguageServer(w *world) *cobra.Command {
	schema := ""
	cmd := &cobra.Command{
		Use:   "language-server",
		Short: "Serves a text editor: the whole program while you type.",
		Long: "Speaks the Language Server Protocol on standard input and output, with which most text editors show problems as you type, " +
			"offer ids, stages and suppliers, say what each line was understood to say, and put mistakes right with a key. " +
			"An editor starts it; \"guidecoat manual editor\" says how to set yours up. The notes are never written to: it is the editor that changes them.",
		Example:           "guidecoat language-server",
		Args:              cobra.NoArgs,
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if schema != "" {
				text, err := server.Schema(schema)
				if err == nil {
					_, err = fmt.Fprintf(w.stdout, "%s\n", text)
				}
				return cannotPrint(err)
			}
			if f, ok := w.stdin.(*os.File); ok {
				if _, typed := terminal(f); typed {
					return cmd.Help()
				}
			}
			defer debug.SetGCPercent(debug.SetGCPercent(typingGCPercent))
			if !server.Serve(cmd.Context(), w.stdin, w.stdout, version(), w.today) {
				return &exit{code: exitProblems} // as the protocol asks where the editor took no leave
			}
			return nil
		},
	}
	word(cmd, &schema, "schema", "print a JSON Schema of the front matter of a `SORT` of file: session, card, page or garage", "sort of file", func() []string { return server.Schemas })
	return cmd
}
