package format

import (
	"fmt"
	"io"
	"strings"

	"seamrail/cmd/internal/job"
	"seamrail/export/header"
	"seamrail/export/report"
	"seamrail/export/report/indexpage"
	"seamrail/motion/plain"
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
	p := indexpage.Page{Plan: Told(j).Report(), Forced: !j.Headline().Ready()}
	for _, f := range c.parts {
		p.Files = append(p.Files, indexpage.File{Name: f.File, Purpose: f.Purpose})
	}
	for _, l := range c.left {
		p.LeftOut = append(p.LeftOut, indexpage.LeftOut{Names: l.names, Why: plain.Sentence(l.why)})
	}
	return report.HTML(w, p.Report())
}

// Said is the headline in lines of a page, with that it was forced where it was.
func Said(j *job.Job) string {
	h := j.Headline()
	words := h.Stamp + "  " + header.Clean(h.Words)
	if !h.Ready() {
		words += " It was written because that was forced."
	}
	return strings.Join(report.Fold(words, report.Width), "\n") + "\n"
}
