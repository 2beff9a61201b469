package picturewords

import (
	"slices"
	"strings"

	"seamrail/export/header"
	"seamrail/motion/camera/picture"
)

// Lack is a number that is missing and the checks it would tell of.
type Lack struct {
	Number string   `json:"number"`
	Checks []string `json:"checks"`
}

// Lacks turns what each check misses about: what each missing number would tell.
func Lacks(r picture.Report) []Lack {
	out := []Lack{}
	for _, v := range r.Verdicts {
		for _, m := range v.Missing {
			i := slices.IndexFunc(out, func(l Lack) bool { return l.Number == m })
			if i < 0 {
				i, out = len(out), append(out, Lack{Number: m})
			}
			out[i].Checks = append(out[i].Checks, v.Check)
		}
	}
	return out
}

// LackWords puts them in a line.
func LackWords(lacks []Lack) string {
	parts := make([]string, len(lacks))
	for i, l := range lacks {
		parts[i] = header.Clean(l.Number) + " (" + header.Clean(strings.Join(l.Checks, ", ")) + ")"
	}
	return strings.Join(parts, "; ")
}
