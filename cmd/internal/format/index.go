package format

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"seamrail/cmd/internal/job"
	"seamrail/export/header"
	"seamrail/export/indexpage"
	"seamrail/export/textpage"
)

// The files of the folder that list all others: one to be read, and a page that opens
// the folder in a browser.
const (
	indexName = "index.txt"
	pageName  = "index.html"
)

// index writes what each file is for.
func (c Contents) index(w io.Writer) error {
	if _, err := fmt.Fprintf(w, "%s\nplan %s\n\n", header.Clean(c.of.Plan.Title), c.of.Plan.Hash()); err != nil {
		return err
	}
	if _, err := io.WriteString(w, Said(c.of.Job)+"\n"); err != nil {
		return err
	}
	return c.List(w)
}

// page writes the same as a page.
func (c Contents) page(w io.Writer) error {
	j := c.of.Job
	var report bytes.Buffer
	if err := Report(&report, j, false); err != nil {
		return err
	}
	p := indexpage.Page{Title: j.Plan.Title, Plan: j.Plan.Hash(), Headline: j.Headline(), Report: report.String()}
	for _, f := range c.parts {
		p.Files = append(p.Files, indexpage.File{Name: f.File, Purpose: f.Purpose})
	}
	for _, l := range c.left {
		p.LeftOut = append(p.LeftOut, indexpage.LeftOut{Names: l.names, Why: textpage.Sentence(l.why)})
	}
	return indexpage.Write(w, p)
}

// Said is the headline in lines of a page, with that it was forced where it was.
func Said(j *job.Job) string {
	h := j.Headline()
	words := h.Stamp + "  " + header.Clean(h.Words)
	if !h.Ready() {
		words += " It was written because that was forced."
	}
	return strings.Join(textpage.Fold(words, textpage.Width), "\n") + "\n"
}
