package clip

import (
	"fmt"
	"slices"

	"seamrail/cmd/internal/format"
	"seamrail/motion/plain"
	"seamrail/motion/sequence"
	"seamrail/plot/sheet"
)

// Sheets are the sheets of a sequence, one for each of its films, in the order to film
// them in.
func (j Joined) Sheets() []sheet.Page {
	var pages []sheet.Page
	for turn, film := range j.Clip.Order.Order {
		k := slices.IndexFunc(j.Clip.Pieces, func(p sequence.Piece) bool { return p.Film == film })
		page := format.Sheet(j.Jobs[k])
		f := j.Clip.Films[film]
		page.Facts = append(page.Facts, fmt.Sprintf("Shot %d of %d on the day, for %s: %s wanted. Rig: %s. Light: %s.",
			turn+1, len(j.Clip.Films), j.Clip.Title, plain.Counted(f.Takes, "take"), setup(f.Setup.Rig), setup(f.Setup.Light)))
		page.Takes = max(page.Takes, f.Takes)
		pages = append(pages, page)
	}
	return pages
}

// setup is what a sequence says of rig or light, or that it says nothing.
func setup(text string) string {
	if text == "" {
		return "as it is"
	}
	return text
}
