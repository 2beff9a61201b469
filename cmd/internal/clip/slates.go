package clip

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"seamrail/cmd/internal/logbook"
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
	next := map[string]int{}
	var out []sheet.Slate
	for turn, film := range c.Order.Order {
		f := c.Films[film]
		k := slices.IndexFunc(c.Pieces, func(p sequence.Piece) bool { return p.Film == film })
		if next[f.File] == 0 {
			var err error
			if next[f.File], err = j.nextTake(k); err != nil {
				return nil, err
			}
		}
		s := j.slate(k, f, turn+1)
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

// nextTake is the number that the next take of a shot has.
func (j Joined) nextTake(entry int) (int, error) {
	if j.builtIn {
		return 1, nil
	}
	log, _, err := logbook.Read(logbook.NameOf(j.Jobs[entry].Shot.File))
	return max(1, log.Next()), err
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
