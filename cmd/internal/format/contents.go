package format

import (
	"cmp"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"seamrail/export/report"
	"seamrail/export/report/filesreport"
	"seamrail/export/report/indexpage"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/job"
	"seamrail/export/header"
	"seamrail/motion/base/plain"
	"seamrail/plot/sheet"
)

// Contents are the files of the folder that holds every format of a job, and those
// that are left out.
type Contents struct {
	of    *Of
	parts []Format
	left  []leftOut
}

// leftOut are files that are not written, and why.
type leftOut struct {
	names []string
	why   string
	quiet bool
}

// told are those of what is left out that something is said of.
func (c Contents) told() []leftOut {
	return slices.DeleteFunc(slices.Clone(c.left), func(l leftOut) bool { return l.quiet })
}

// Contents are the files of the folder of a job. What is left out for the same reason
// is told once.
func (of *Of) Contents() Contents {
	out := Contents{of: of}
	for _, f := range of.order() {
		if why := f.Missing(of); why != nil {
			out.leave(f, why.Error())
			continue
		}
		out.parts = append(out.parts, f)
	}
	return out
}

// order is the table, with the sheet in front where the rig is set and started by hand:
// there it is all that the rig is told.
func (of *Of) order() []Format {
	if job.Driven(of.Rig) == nil {
		return table
	}
	isSheet := func(f Format) bool {
		return slices.ContainsFunc(sheetPage, func(s Format) bool { return s.File == f.File })
	}
	rest := slices.DeleteFunc(slices.Clone(table), isSheet)
	return slices.Concat(sheetPage, rest)
}

func (c *Contents) leave(f Format, why string) {
	k := slices.IndexFunc(c.left, func(o leftOut) bool { return o.why == why })
	if k < 0 {
		c.left = append(c.left, leftOut{[]string{f.File}, why, f.Quiet})
		return
	}
	c.left[k].names = append(c.left[k].names, f.File)
}

// Files are the files, with those that list them.
func (c Contents) Files() []atomicfile.File {
	var out []atomicfile.File
	for _, f := range c.parts {
		out = append(out, atomicfile.File{Name: f.File, Fill: func(w io.Writer) error { return f.Write(c.of, w) }})
	}
	return append(out, atomicfile.File{Name: indexName, Fill: c.index}, atomicfile.File{Name: pageName, Fill: c.page})
}

// grouped are the formats that are written, for whom they are.
func (c Contents) grouped() []Format {
	out := slices.Clone(c.parts)
	slices.SortStableFunc(out, func(a, b Format) int { return cmp.Compare(a.For, b.For) })
	return out
}

// List writes what each file is for, and what is left out.
func (c Contents) List(w io.Writer) error {
	var b strings.Builder
	whom := Whom(-1)
	for _, f := range c.grouped() {
		if f.For != whom {
			whom = f.For
			fmt.Fprintf(&b, "For %s:\n", whom)
		}
		fmt.Fprintf(&b, "  %-12s %s\n", f.File, f.Purpose)
	}
	for _, l := range c.told() {
		fmt.Fprintf(&b, "Left out: %s.\n  %s\n", strings.Join(l.names, ", "), plain.Sentence(header.Clean(l.why)))
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// Stale says which of the files that are left out lie in the folder all the same.
func (c Contents) Stale(w io.Writer, dir string) error {
	var there []string
	for _, l := range c.left {
		for _, name := range l.names {
			if _, err := os.Lstat(filepath.Join(dir, name)); err == nil {
				there = append(there, name)
			}
		}
	}
	if len(there) == 0 {
		return nil
	}
	_, err := fmt.Fprintf(w, "Not of this plan, but in %s from before: %s.\n", dir, strings.Join(there, ", "))
	return err
}

// Lacks says what the files in PDF and PNG cannot set of a shot; "" where they can all.
func (c Contents) Lacks() string { return sheet.Lacks(c.of.sheet()) }

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

// Wrote is what was written of a job, nil for none.
func Wrote(j *job.Job, names ...string) filesreport.Document {
	out := filesreport.Written(names...)
	if j == nil {
		return out
	}
	v := report.VerdictOf(j.Headline())
	out.Title, out.Plan, out.Verdict = j.Plan.Title, j.Plan.Hash(), &v
	return out
}

// Wrote is what was written of the folder.
func (c Contents) Wrote(dir string) filesreport.Document {
	out := Wrote(c.of.Job)
	out.Folder = dir
	for _, f := range c.grouped() {
		out.Files = append(out.Files, filesreport.FileOf(f.File, f.Purpose, f.For.String()))
	}
	for _, l := range c.left {
		out.LeftOut = append(out.LeftOut, filesreport.LeftOut{Names: l.names, Why: plain.Sentence(l.why)})
	}
	return out
}

// page writes the same as a page.
func (c Contents) page(w io.Writer) error {
	j := c.of.Job
	p := indexpage.Page{Plan: Told(j).Report(), Forced: !j.Headline().Ready(), Moving: previewName}
	for _, f := range c.grouped() {
		p.Files = append(p.Files, indexpage.File{Name: f.File, Purpose: f.Purpose, For: f.For.String()})
	}
	for _, l := range c.told() {
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
