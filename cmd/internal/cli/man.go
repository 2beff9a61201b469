package cli

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/guide"
	"seamrail/cmd/internal/manual"
	"seamrail/export/report/filesreport"
	"seamrail/motion/base/list"
	"seamrail/motion/base/plain"
)

// ManOptions is what the man command was asked.
type ManOptions struct {
	Streams command.Streams
	Dir     string
	Root    *cobra.Command
	Told    command.Told
}

// NewCmdMan returns the man command. A nil run means the real one.
func NewCmdMan(s command.Streams, run func(*ManOptions) error) *cobra.Command {
	o := &ManOptions{Streams: s}
	c := &cobra.Command{
		Use:   "man DIR",
		Short: "Write the manual pages to a folder",
		Long: `Write one manual page a command and one a chapter of the guide to a folder, in
the format that man reads. The folder is made if it is not there.`,
		Example: "  seamrail man share/man/man1",
		Args:    command.Exactly("a folder to write to"),
		RunE: func(c *cobra.Command, args []string) error {
			o.Dir, o.Root = args[0], c.Root()
			return command.Or(run, manRun)(o)
		},
	}
	o.Told.RegisterFiles(c)
	return c
}

func manRun(o *ManOptions) error {
	var files []atomicfile.File
	for _, c := range manual.Commands(o.Root) {
		files = append(files, atomicfile.File{
			Name: manual.FileName(c),
			Fill: func(w io.Writer) error { return manual.Write(w, c) },
		})
	}
	for _, c := range guide.Chapters() {
		files = append(files, atomicfile.File{
			Name: manual.ChapterFile(c),
			Fill: func(w io.Writer) error { return manual.WriteChapter(w, c) },
		})
	}
	if err := atomicfile.Folder(o.Dir, files, nil); err != nil {
		return err
	}
	words := fmt.Sprintf("Wrote %d manual pages to %s.\n", len(files), plain.Text(o.Dir))
	return o.Told.Wrote(o.Streams, words, func() filesreport.Document {
		out := filesreport.Written(list.Map(files, func(f atomicfile.File) string { return f.Name })...)
		out.Folder = o.Dir
		return out
	})
}
