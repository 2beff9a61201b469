// Package indexpage writes the page that opens a folder of exports in a browser.
// It stands by itself: it names only files beside it, runs nothing, and whatever
// comes from a shot is escaped (html/template).
package indexpage

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"path"
	"slices"
	"strings"

	"seamrail/export/header"
)

// Page is what the page shows.
type Page struct {
	Title, Plan string
	Trouble     string // why the plan must not run as it is, "" where it may
	Report      string // as plain text
	Files       []File // in the order they are listed in
}

// File is one file of the folder.
type File struct {
	Name, Purpose string
}

//go:embed page.html
var layout string

var page = template.Must(template.New("page").Parse(layout))

// Write writes the page. Pictures and sounds among the files are shown; of a
// picture that is there in several forms, the one that can be enlarged. The
// error is the writer's, wrapped.
func Write(w io.Writer, p Page) error {
	p.Title = header.Clean(p.Title)
	var buf bytes.Buffer
	err := page.Execute(&buf, struct {
		Page
		Pictures, Sounds []File
	}{p, pictures(p.Files), ending(p.Files, ".wav")})
	if err == nil {
		_, err = w.Write(buf.Bytes())
	}
	if err != nil {
		return fmt.Errorf("writing the index page: %w", err)
	}
	return nil
}

func ending(files []File, end string) []File {
	return slices.DeleteFunc(slices.Clone(files), func(f File) bool { return path.Ext(f.Name) != end })
}

// pictures are the files that show something, each thing once.
func pictures(files []File) []File {
	lines := ending(files, ".svg")
	drawn := func(f File) bool {
		stem := strings.TrimSuffix(f.Name, path.Ext(f.Name))
		return slices.ContainsFunc(lines, func(l File) bool { return l.Name == stem+".svg" })
	}
	return slices.DeleteFunc(slices.Clone(files), func(f File) bool {
		end := path.Ext(f.Name)
		return end != ".svg" && (end != ".png" || drawn(f))
	})
}
