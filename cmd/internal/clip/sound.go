package clip

import (
	"errors"
	"io"
	"slices"

	"seamrail/export/cue/click"
	"seamrail/export/header"
	"seamrail/motion/edit/timeline"
)

// cuesName is the sound of a clip.
const cuesName = "cues.wav"

// heard is the name of the sound of a clip, "" where no hand does anything in it.
func heard(t timeline.Timeline) string {
	if slices.ContainsFunc(t.Marks, func(m timeline.Mark) bool { return m.What == timeline.CueMark }) {
		return cuesName
	}
	return ""
}

// sound adds what is heard: each cue where it is seen, and each cut softly.
func (h *Handoff) sound() {
	var lacks error
	if heard(h.t) == "" {
		lacks = errors.New("no shot shows what a [[cue]] tells a hand to do")
	}
	h.need(lacks, cuesName, "sounds at cues and, softly, at cuts; as long as the clip", func(w io.Writer) error {
		var marks []click.Mark
		for _, m := range h.t.Marks {
			if m.What == timeline.CueMark || m.What == timeline.CutMark {
				marks = append(marks, click.Mark{At: m.At, Cue: m.What == timeline.CueMark})
			}
		}
		about := []string{"seamrail: cues of a clip", header.Clean(h.j.Clip.Title), "times: on screen, from the clip's first frame"}
		return click.WriteMarks(w, h.j.Clip.OnScreen(), marks, about)
	})
}
