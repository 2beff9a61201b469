package takes

import (
	"fmt"
	"strings"

	"seamrail/cmd/internal/logbook"
	"seamrail/export/drive/takelog"
	"seamrail/motion/edit/filmed"
)

// filmTexts are what is known of the film of a take, and of its hands.
func filmTexts(k takelog.Take) []string {
	f := logbook.FilmOf(k)
	if f == nil {
		return nil
	}
	out := []string{f.File + ": " + f.Where()}
	if f.Known() {
		out = append(out, keptFrames(*f))
	}
	if f.Verdict != "" {
		words := strings.ToLower(f.Verdict)
		if f.Apart > 0 {
			words += fmt.Sprintf(", %.2g px apart", f.Apart)
		}
		out = append(out, words)
	}
	return append(out, handTexts(k.Film.Actions)...)
}

// keptFrames are those that are cut out.
func keptFrames(f filmed.Film) string {
	text := fmt.Sprintf("round %d kept, frames %d to %d", f.Round+1, f.In, f.Out-1)
	if first := f.Label(f.In); first != "" {
		text += fmt.Sprintf(" (%s to %s)", first, f.Label(f.Out-1))
	}
	return text
}

// handTexts say how each hand was.
func handTexts(list []takelog.Action) []string {
	var out []string
	for _, a := range list {
		out = append(out, fmt.Sprintf("%s in round %d %s", a.Cue, a.Round+1, logbook.ActionWords(a)))
	}
	return out
}
