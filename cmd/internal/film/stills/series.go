package stills

import (
	"cmp"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"seamrail/cmd/internal/film/odd"
)

// Named is a file of a series, by its name without the folder.
type Named struct {
	Name     string
	from, to int // its number, as a part of the name; the same where it has none
}

// NewNamed is a name whose number is the last one before its ending.
func NewNamed(name string) Named {
	stem := strings.TrimSuffix(name, filepath.Ext(name))
	to := strings.LastIndexFunc(stem, func(r rune) bool { return r >= '0' && r <= '9' }) + 1
	if to == 0 {
		return Named{name, len(stem), len(stem)}
	}
	from := to
	for from > 0 && isDigit(name[from-1]) {
		from--
	}
	return Named{name, from, to}
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

// number is that of the name, and false where it has none or one that is too great to be
// the number of a frame.
func (n Named) number() (int64, bool) {
	v, err := strconv.ParseInt(n.Name[n.from:n.to], 10, 64)
	return v, err == nil
}

// series is what a name has in common with the others of its series.
func (n Named) series() string {
	return n.Name[:n.from] + "*" + strings.ToLower(n.Name[n.to:])
}

// Sort puts files in natural order: by what is before their numbers, with digits in it read
// as numbers, then by their numbers, then by what is behind.
func Sort(files []Named) {
	slices.SortFunc(files, func(a, b Named) int {
		return cmp.Or(natural(a.Name[:a.from], b.Name[:b.from]), digits(a.Name[a.from:a.to], b.Name[b.from:b.to]),
			natural(a.Name[a.to:], b.Name[b.to:]), strings.Compare(a.Name, b.Name))
	})
}

// natural compares texts in which a run of digits counts as its number.
func natural(a, b string) int {
	for a != "" && b != "" {
		x, restA := run(a)
		y, restB := run(b)
		c := strings.Compare(x, y)
		if isDigit(x[0]) && isDigit(y[0]) {
			c = digits(x, y)
		}
		if c != 0 {
			return c
		}
		a, b = restA, restB
	}
	return len(a) - len(b)
}

// run is what a text begins with, all digits or none.
func run(s string) (first, rest string) {
	n := 1
	for n < len(s) && isDigit(s[n]) == isDigit(s[0]) {
		n++
	}
	return s[:n], s[n:]
}

// digits compares numbers of any length.
func digits(a, b string) int {
	a, b = strings.TrimLeft(a, "0"), strings.TrimLeft(b, "0")
	return cmp.Or(len(a)-len(b), strings.Compare(a, b))
}

// maxTold is how many stretches of missing numbers are told one by one.
const maxTold = 8

// Remarks are what is odd of files in their order: numbers that miss, more than one series,
// numbers that are there twice.
func Remarks(files []Named) (out odd.Remarks) {
	all := seriesOf(files)
	if len(all) > 1 {
		out.Add(odd.Mixed, "the stills are of %d series, one after another: %s; name one with a pattern", len(all), list(all, "%q"))
	}
	var gaps []string
	missing := int64(0)
	for i := 1; i < len(files); i++ {
		n, text := gap(files[i-1], files[i])
		switch {
		case n > 0:
			missing += n
			gaps = append(gaps, text)
		case n < 0:
			out.Add(odd.Mixed, "the number of %s is there again in %s", files[i-1].Name, files[i].Name)
		}
	}
	if missing > 0 {
		out.Add(odd.Gap, "%s missing between %s and %s: %s", lost(missing), files[0].Name, files[len(files)-1].Name, list(gaps, "%s"))
	}
	return out
}

func lost(n int64) string {
	if n == 1 {
		return "1 still is"
	}
	return fmt.Sprintf("%d stills are", n)
}

func seriesOf(files []Named) (out []string) {
	seen := map[string]bool{}
	for _, f := range files {
		if s := f.series(); !seen[s] {
			seen[s] = true
			out = append(out, s)
		}
	}
	return out
}

// gap is how many numbers miss between a file and the next of its series, and which, written
// as they would be; -1 where both have the same.
func gap(a, b Named) (int64, string) {
	m, okA := a.number()
	n, okB := b.number()
	if !okA || !okB || a.series() != b.series() || n == m+1 {
		return 0, ""
	}
	if n == m {
		return -1, ""
	}
	width := a.to - a.from
	first, last := fmt.Sprintf("%0*d", width, m+1), fmt.Sprintf("%0*d", width, n-1)
	if first == last {
		return 1, first
	}
	return n - m - 1, first + " to " + last
}

// list is the first few of many, and how many more there are.
func list(all []string, form string) string {
	var out []string
	for i, s := range all {
		if i == maxTold {
			out = append(out, fmt.Sprintf("and %d more", len(all)-maxTold))
			break
		}
		out = append(out, fmt.Sprintf(form, s))
	}
	return strings.Join(out, ", ")
}
