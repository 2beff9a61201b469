package clip

import (
	"fmt"
	"image"
	"io"
	"strings"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/format"
	"seamrail/export/handoff/editlist"
	"seamrail/export/handoff/otio"
	"seamrail/export/header"
	"seamrail/export/report"
	"seamrail/export/report/indexpage"
	"seamrail/motion/base/plain"
	"seamrail/motion/edit/timeline"
	"seamrail/plot/preview"
)

// Handoff is the folder in which a clip is handed on.
type Handoff struct {
	j       Joined
	t       timeline.Timeline
	told    report.Report
	files   []handed
	leftOut []indexpage.LeftOut
	Said    []string // of kept takes that are of no use
}

// handed is one file of it.
type handed struct {
	name, purpose string
	write         func(io.Writer) error
}

// The names of the files.
const (
	timelineName = "timeline.otio"
	editsName    = "clip.edl"
	previewName  = "clip.png"
	slatesName   = "slates.pdf"
)

// Handoff makes the folder of a clip. It is refused where a shot must not run as it is.
func (j Joined) Handoff() (Handoff, error) {
	if err := j.Trouble(); err != nil {
		return Handoff{}, exit.Limited("%w, and nothing was written", err)
	}
	t, footage, err := j.Timeline()
	h := Handoff{j: j, t: t, Said: footage.Said}
	if err != nil {
		return h, err
	}
	told, err := j.Report()
	if err != nil {
		return h, err
	}
	h.told = told.Report()
	h.add("report.txt", "the clip: cuts, seams, takes, the day", func(w io.Writer) error {
		return report.Text(w, h.told, false)
	})
	h.add(timelineName, "the clip as a timeline, for an edit program", func(w io.Writer) error { return otio.WriteClip(w, t, heard(t)) })
	h.need(editlist.Unfit(t), editsName, "the same as a list of edits", func(w io.Writer) error { return editlist.Write(w, t) })
	h.preview()
	h.sound()
	h.slates()
	return h, nil
}

func (h *Handoff) add(name, purpose string, write func(io.Writer) error) {
	h.files = append(h.files, handed{name, purpose, write})
}

// need adds a file, or leaves it out for a reason.
func (h *Handoff) need(lacks error, name, purpose string, write func(io.Writer) error) {
	if lacks != nil {
		h.leftOut = append(h.leftOut, indexpage.LeftOut{Names: []string{name}, Why: plain.Sentence(header.Clean(lacks.Error()))})
		return
	}
	h.add(name, purpose, write)
}

// previewWide is how wide the clip is drawn, in px.
const previewWide = 320

// preview adds the clip as a loop of pictures.
func (h *Handoff) preview() {
	finders, size, err := h.finders()
	h.need(err, previewName, "what the lens sees of the clip, as a loop", func(w io.Writer) error {
		_, err := preview.WriteClip(w, h.j.Clip.Frames, h.j.Clip.Playback, func(i int64) preview.Mixed { return h.pictured(finders, i) }, size)
		return err
	})
}

// finders draw the pictures of each piece; size holds any of them.
func (h *Handoff) finders() ([]*preview.Finder, image.Point, error) {
	var size image.Point
	out := make([]*preview.Finder, len(h.j.Jobs))
	for i, j := range h.j.Jobs {
		f, _, err := format.Finder(j, previewWide, false)
		if err != nil {
			return nil, size, err
		}
		wide, high := f.Size()
		size = image.Point{max(size.X, wide), max(size.Y, high)}
		out[i] = f
	}
	return out, size, nil
}

// pictured is a frame of the clip.
func (h *Handoff) pictured(finders []*preview.Finder, frame int64) preview.Mixed {
	now, into, share := h.t.At(frame)
	shown := func(at timeline.At) preview.Shown {
		return preview.Shown{Finder: finders[at.Piece], Frame: at.Captured}
	}
	m := preview.Mixed{Shown: shown(now), Share: share}
	if share > 0 {
		m.Into = shown(into)
	}
	return m
}

// Files are the files, with those that list them.
func (h Handoff) Files() []atomicfile.File {
	var out []atomicfile.File
	for _, f := range h.files {
		out = append(out, atomicfile.File{Name: f.name, Fill: f.write})
	}
	return append(out, atomicfile.File{Name: "index.txt", Fill: h.index}, atomicfile.File{Name: "index.html", Fill: h.page})
}

// List writes what each file is for, and what is left out.
func (h Handoff) List(w io.Writer) error {
	var b strings.Builder
	for _, f := range h.files {
		fmt.Fprintf(&b, "  %-13s %s\n", f.name, f.purpose)
	}
	for _, l := range h.leftOut {
		b.WriteString(strings.Join(report.Fold("Left out: "+strings.Join(l.Names, ", ")+". "+l.Why, report.Width), "\n") + "\n")
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func (h Handoff) index(w io.Writer) error {
	if _, err := fmt.Fprintf(w, "%s\n\n", header.Clean(h.j.Clip.Title)); err != nil {
		return err
	}
	return h.List(w)
}

func (h Handoff) page(w io.Writer) error {
	p := indexpage.Page{Plan: h.told, LeftOut: h.leftOut, Moving: previewName}
	for _, f := range h.files {
		whom := format.Edit
		if f.name == slatesName {
			whom = format.Set
		}
		p.Files = append(p.Files, indexpage.File{Name: f.name, Purpose: f.purpose, For: whom.String()})
	}
	return report.HTML(w, p.Report())
}
