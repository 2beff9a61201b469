// Package apart tells which lines two texts have in common, in order.
package apart

import (
	"slices"
	"strings"
)

// Line is one line of a text, and whether the other text does not have it in its place.
type Line struct {
	Text string
	Own  bool
}

// Lines are the lines of two texts. Those that are not their own are the same in both,
// in order: as many as can be, where what differs at one place is two hundred lines at
// the most; else those round lines that both have once.
func Lines(here, there string) (ours, theirs []Line) {
	a, b := strings.Split(here, "\n"), strings.Split(there, "\n")
	ours, theirs = owned(a), owned(b)
	x, y, kinds := numbered(a, b)
	p := pairing{make([]place, kinds), func(i, j int) { ours[i].Own, theirs[j].Own = false, false }}
	p.within(x, y, 0, 0, 0)
	return ours, theirs
}

func owned(lines []string) []Line {
	out := make([]Line, len(lines))
	for i, l := range lines {
		out[i] = Line{l, true}
	}
	return out
}

// numbered gives the same number to lines that are the same.
func numbered(a, b []string) (x, y []int, kinds int) {
	known := map[string]int{}
	of := func(lines []string) []int {
		out := make([]int, len(lines))
		for i, l := range lines {
			n, ok := known[l]
			if !ok {
				n = len(known)
				known[l] = n
			}
			out[i] = n
		}
		return out
	}
	x, y = of(a), of(b)
	return x, y, len(known)
}

const (
	// maxCells bounds the table by which the most lines in common are found: a megabyte of
	// such tables one after the other still takes less than a second.
	maxCells = 1 << 15
	// maxDepth bounds how often a stretch is parted by what it has once.
	maxDepth = 32
)

// pairing calls found with each pair of lines that are kept, in any order.
type pairing struct {
	places []place // of each line, by its number; empty between uses
	found  func(i, j int)
}

// place is where a line is in the second of two stretches, and how often it is in both.
type place struct{ y, inX, inY int }

// within pairs the lines of two stretches, which begin at i and j.
func (p pairing) within(x, y []int, i, j, depth int) {
	for len(x) > 0 && len(y) > 0 && x[0] == y[0] {
		p.found(i, j)
		x, y, i, j = x[1:], y[1:], i+1, j+1
	}
	for len(x) > 0 && len(y) > 0 && x[len(x)-1] == y[len(y)-1] {
		x, y = x[:len(x)-1], y[:len(y)-1]
		p.found(i+len(x), j+len(y))
	}
	switch {
	case len(x) == 0 || len(y) == 0 || depth > maxDepth:
	case (len(x)+1)*(len(y)+1) <= maxCells:
		p.most(x, y, i, j)
	default:
		k, l := 0, 0
		for _, at := range p.anchors(x, y) {
			p.within(x[k:at[0]], y[l:at[1]], i+k, j+l, depth+1)
			p.found(i+at[0], j+at[1])
			k, l = at[0]+1, at[1]+1
		}
		if k > 0 {
			p.within(x[k:], y[l:], i+k, j+l, depth+1)
		}
	}
}

// most pairs as many lines as can be, by the table of R. A. Wagner and M. J. Fischer,
// J. ACM 21:168-173, 1974, DOI 10.1145/321796.321811.
func (p pairing) most(x, y []int, i, j int) {
	wide := len(y) + 1
	n := make([]int32, (len(x)+1)*wide)
	for k := len(x) - 1; k >= 0; k-- {
		for l := len(y) - 1; l >= 0; l-- {
			if x[k] == y[l] {
				n[k*wide+l] = n[(k+1)*wide+l+1] + 1
			} else {
				n[k*wide+l] = max(n[(k+1)*wide+l], n[k*wide+l+1])
			}
		}
	}
	for k, l := 0, 0; k < len(x) && l < len(y); {
		switch {
		case x[k] == y[l]:
			p.found(i+k, j+l)
			k, l = k+1, l+1
		case n[(k+1)*wide+l] >= n[k*wide+l+1]:
			k++
		default:
			l++
		}
	}
}

// anchors are pairs of lines that both stretches have once, as many as are in order in
// both: the longest increasing subsequence of C. Schensted, Canad. J. Math. 13:179-191,
// 1961, DOI 10.4153/CJM-1961-015-3, by piles.
func (p pairing) anchors(x, y []int) [][2]int {
	for _, line := range x {
		p.places[line].inX++
	}
	for l, line := range y {
		p.places[line].y = l
		p.places[line].inY++
	}
	var pairs [][2]int
	for k, line := range x {
		if at := p.places[line]; at.inX == 1 && at.inY == 1 {
			pairs = append(pairs, [2]int{k, at.y})
		}
	}
	for _, line := range slices.Concat(x, y) {
		p.places[line] = place{}
	}
	return increasing(pairs)
}

// increasing is the longest row of pairs, which are in order by their first, that are in
// order by their second too.
func increasing(pairs [][2]int) [][2]int {
	var tops []int // of each pile, the pair with the least second
	before := make([]int, len(pairs))
	for n, pair := range pairs {
		pile, _ := slices.BinarySearchFunc(tops, pair[1], func(top, second int) int { return pairs[top][1] - second })
		before[n] = -1
		if pile > 0 {
			before[n] = tops[pile-1]
		}
		if pile == len(tops) {
			tops = append(tops, n)
		} else {
			tops[pile] = n
		}
	}
	var out [][2]int
	if len(tops) > 0 {
		for n := tops[len(tops)-1]; n >= 0; n = before[n] {
			out = append(out, pairs[n])
		}
	}
	slices.Reverse(out)
	return out
}
