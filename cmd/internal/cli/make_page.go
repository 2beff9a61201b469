package cli

import (
	"bytes"
	"io"

	"seamrail/export/indexpage"
)

// pageName is the page that opens the folder in a browser.
const pageName = "index.html"

// page writes that page.
func (j job) page(all contents) func(io.Writer) error {
	return func(w io.Writer) error {
		var report bytes.Buffer
		if err := j.report(&report, false, false); err != nil {
			return err
		}
		p := indexpage.Page{Title: j.plan.Title, Plan: j.plan.Hash(), Headline: j.headline(), Report: report.String()}
		for _, f := range all.parts {
			p.Files = append(p.Files, indexpage.File{Name: f.name, Purpose: f.purpose})
		}
		for _, l := range all.left {
			p.LeftOut = append(p.LeftOut, indexpage.LeftOut{Names: l.names, Why: sentence(l.why)})
		}
		return indexpage.Write(w, p)
	}
}
