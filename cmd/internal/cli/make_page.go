package cli

import (
	"bytes"
	"io"

	"seamrail/export/indexpage"
)

// pageName is the page that opens the folder in a browser.
const pageName = "index.html"

// page writes that page.
func (j job) page(parts []part) func(io.Writer) error {
	return func(w io.Writer) error {
		var report bytes.Buffer
		if err := j.report(&report, false, false); err != nil {
			return err
		}
		p := indexpage.Page{Title: j.plan.Title, Plan: j.plan.Hash(), Report: report.String()}
		if err := j.unable(); err != nil {
			p.Trouble = err.Error()
		}
		for _, f := range parts {
			p.Files = append(p.Files, indexpage.File{Name: f.name, Purpose: f.purpose})
		}
		return indexpage.Write(w, p)
	}
}
