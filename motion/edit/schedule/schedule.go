// Package schedule finds the order to film in that needs the fewest changes of a
// set-up.
package schedule

import "cmp"

// Setup is how the table stands for one piece of work. Two set-ups differ by
// what of them differs; the names mean nothing else.
type Setup struct{ Rig, Light string }

// Costs are what a change takes, in any one unit: 1 and 1 count changes. Both
// are 0 or more.
type Costs struct{ Rig, Light int64 }

// Between returns what it takes to go from one set-up to another. It obeys the
// triangle inequality, so that going back to a set-up never saves anything.
func (c Costs) Between(a, b Setup) int64 {
	var sum int64
	if a.Rig != b.Rig {
		sum += c.Rig
	}
	if a.Light != b.Light {
		sum += c.Light
	}
	return sum
}

// Answer is an order of work.
type Answer struct {
	Order        []int // indices of the work, in the order to do it
	Cost         int64 // of all changes after the first set-up
	RigChanges   int
	LightChanges int
	// Least is set where no order costs less: every order was looked at, or the
	// cost is what the different set-ups alone ask for.
	Least bool
}

// Find returns the order of work that costs least, work being the set-up each
// piece of it needs. What has one set-up is done together, in the order given;
// of orders that cost the same, the one that keeps nearest to the order given is
// taken. Up to MaxExact different set-ups the answer is exact; beyond, it is
// the best of a search that may miss a better one, and Least says whether it
// can have.
func Find(work []Setup, c Costs) Answer {
	setups, members := distinct(work)
	var way []int
	exact := len(setups) <= MaxExact
	if exact {
		way = solve(tableOf(setups, c))
	} else {
		way = search(tableOf(setups, c))
	}
	a := Answer{Order: make([]int, 0, len(work))}
	for i, s := range way {
		a.Order = append(a.Order, members[s]...)
		if i > 0 {
			a.change(setups[way[i-1]], setups[s], c)
		}
	}
	a.Least = exact || a.Cost == bound(setups, c)
	return a
}

func (a *Answer) change(from, to Setup, c Costs) {
	a.Cost += c.Between(from, to)
	if from.Rig != to.Rig {
		a.RigChanges++
	}
	if from.Light != to.Light {
		a.LightChanges++
	}
}

// distinct returns the different set-ups in the order they first appear, and
// which work each is for.
func distinct(work []Setup) (setups []Setup, members [][]int) {
	number := map[Setup]int{}
	for i, s := range work {
		n, ok := number[s]
		if !ok {
			n = len(setups)
			number[s] = n
			setups, members = append(setups, s), append(members, nil)
		}
		members[n] = append(members[n], i)
	}
	return setups, members
}

// bound is what no order can cost less than: every set-up but the first is come
// to by a change, every rig and every light but the first by one of its own.
func bound(setups []Setup, c Costs) int64 {
	rigs, lights := map[string]bool{}, map[string]bool{}
	for _, s := range setups {
		rigs[s.Rig], lights[s.Light] = true, true
	}
	r, l := int64(len(rigs)-1), int64(len(lights)-1)
	changes := r*c.Rig + l*c.Light
	if spare := int64(len(setups)-1) - r - l; spare > 0 {
		changes += spare * min(c.Rig, c.Light)
	}
	return changes
}

// table holds what it takes to go from each set-up to each.
type table [][]int64

func tableOf(setups []Setup, c Costs) table {
	t := make(table, len(setups))
	for i, a := range setups {
		for _, b := range setups {
			t[i] = append(t[i], c.Between(a, b))
		}
	}
	return t
}

// cost is that of a way through set-ups.
func (t table) cost(way []int) int64 {
	var sum int64
	for i := 1; i < len(way); i++ {
		sum += t[way[i-1]][way[i]]
	}
	return sum
}

// earlier tells whether way a is better than b: it costs less, or the same and
// keeps nearer to the order given.
func earlier(a, b []int, costA, costB int64) bool {
	if costA != costB {
		return costA < costB
	}
	for i := range a {
		if d := cmp.Compare(a[i], b[i]); d != 0 {
			return d < 0
		}
	}
	return false
}
