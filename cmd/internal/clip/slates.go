package clip

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"seamrail/cmd/internal/logbook"
	"seamrail/export/drive/takelog"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/edit/selects"
	"seamrail/motion/edit/sequence"
	"seamrail/plot/sheet"
)

// mostSlates bounds the slates of a clip: of more takes there is one a shot, with the take
// left blank.
const mostSlates = 200

// Slates are those of all takes that are wanted, in the order to film them in. Takes go on
// counting from those that the logs have.
func (j Joined) Slates() ([]sheet.Slate, error) {
	c := j.Clip
	each := c.Totals().Takes <= mostSlates
	next, filmed := map[string]int{}, map[string]string{}
	var out []sheet.Slate
	for turn, film := range c.Order.Order {
		f := c.Films[film]
		k := slices.IndexFunc(c.Pieces, func(p sequence.Piece) bool { return p.Film == film })
		if next[f.File] == 0 {
			var err error
			if next[f.File], filmed[f.File], err = j.logged(k); err != nil {
				return nil, err
			}
		}
		s := j.slate(k, f, turn+1)
		if text := filmed[f.File]; text != "" {
			s.Lines = append(s.Lines, text)
		}
		if !each {
			out = append(out, s)
			continue
		}
		for range f.Takes {
			s.Take = fmt.Sprint(next[f.File])
			next[f.File]++
			out = append(out, s)
		}
	}
	return out, nil
}

// mostNamed is how many takes of the log a slate names: a line of it.
const mostNamed = 3

// logged is the number that the next take of a shot has, and what the camera calls the last
// takes that the log has.
func (j Joined) logged(entry int) (next int, filmed string, err error) {
	if j.builtIn {
		return 1, "", nil
	}
	var named []string
	log, _, err := logbook.Walk(logbook.NameOf(j.Jobs[entry].Shot.File), func(t takelog.Take) error {
		if t.Virtual() || t.Why != "" {
			return nil
		}
		text := fmt.Sprintf("take %d", t.Number)
		if t.Clip != "" {
			text += " is " + t.Clip
		}
		if t.Keep {
			text += ", kept"
		}
		named = append(named, text)
		return nil
	})
	if n := len(named); n > 0 {
		filmed = "in the log: " + strings.Join(named[max(0, n-mostNamed):], "; ")
	}
	return max(1, log.Next()), filmed, err
}

// slate is that of a shot, without a take.
func (j Joined) slate(entry int, f sequence.Film, scene int) sheet.Slate {
	p := j.Jobs[entry].Plan
	k := p.Loop.Clock
	keep := selects.Of(p, nil).Kept[0]
	return sheet.Slate{
		Title: j.Clip.Title, Scene: fmt.Sprint(scene), Shot: p.Title, Foot: f.File + ", plan " + p.Hash(),
		Lines: []string{
			fmt.Sprintf("%s frames/s, shown at %s: %s of real speed", rate(k.Capture), rate(k.Playback), k.Retime),
			fmt.Sprintf("%s; of the %d frames of the take keep %d to %d", plain.Count(p.Rounds, "round"), keep.Recorded, keep.First, keep.Last),
			fmt.Sprintf("loop of %d frames on the timeline; the clip shows %s", p.Loop.Screen, j.seenOf(f)),
			fmt.Sprintf("rig: %s; light: %s", stated(f.Setup.Rig), stated(f.Setup.Light)),
		},
	}
}

// rate is a frame rate as it is spoken, without its exact ratio.
func rate(r exact.Rat) string {
	text, _, _ := strings.Cut(clock.RateText(r), " ")
	return text
}

// seenOf says which frames of a film's loop the clip shows.
func (j Joined) seenOf(f sequence.Film) string {
	words := ""
	for i, k := range f.Pieces {
		if i > 0 {
			words += ", "
		}
		p := j.Clip.Pieces[k]
		words += fmt.Sprintf("%d to %d", p.From, p.Last())
	}
	return words
}

// slates adds the slates.
func (h *Handoff) slates() {
	all, err := h.j.Slates()
	h.need(err, slatesName, fmt.Sprintf("%s, in the order to film in, to hold before the lens", plain.Count(len(all), "slate")), func(w io.Writer) error {
		return sheet.WriteSlates(w, all)
	})
}
