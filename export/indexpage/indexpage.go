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
	"sync"

	"seamrail/export/header"
	"seamrail/motion/plan/judge"
)

// Page is what the page shows.
type Page struct {
	Title, Plan string
	Headline    judge.Headline
	Report      string // as plain text
	Files       []File // in the order they are listed in
	LeftOut     []LeftOut
}

// LeftOut are files that are not there, and a sentence that says why.
type LeftOut struct {
	Names []string
	Why   string
}

// File is one file of the folder.
type File struct {
	Name, Purpose string
}

//go:embed page.html
var layout string

var page = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("page").Parse(layout))
})

// Write writes the page. Pictures and sounds among the files are shown; of a
// picture that is there in several forms, the one that can be enlarged. The
// error is the writer's, wrapped.
func Write(w io.Writer, p Page) error {
	p.Title = header.Clean(p.Title)
	var buf bytes.Buffer
	err := page().Execute(&buf, struct {
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

// drawings are the forms that one drawing is written in, best to look at first.
var drawings = []string{".svg", ".png", ".pdf"}

func isDrawing(f File) bool { return slices.Contains(drawings, path.Ext(f.Name)) }

func stem(name string) string { return strings.TrimSuffix(name, path.Ext(name)) }

// pictures are the files that show something, each drawing once and under the
// words of the form of it that is listed first. What is only on paper is left out.
func pictures(files []File) []File {
	var out []File
	for _, f := range files {
		if !isDrawing(f) || slices.ContainsFunc(out, func(o File) bool { return stem(o.Name) == stem(f.Name) }) {
			continue
		}
		for _, end := range drawings[:2] {
			name := stem(f.Name) + end
			if slices.ContainsFunc(files, func(o File) bool { return o.Name == name }) {
				out = append(out, File{name, f.Purpose})
				break
			}
		}
	}
	return out
}
