package takelog

// numbers are the numbers of the takes of a log, of those on a rig of metal or of the
// virtual ones. Mostly each is one more than the one before and stands right after
// it, so that they are a few runs.
type numbers struct {
	runs    []run
	highest int
}

// run is takes whose numbers follow each other: number lo stands at place, and so
// on, n of them.
type run struct{ lo, n, place int }

// add says that a take has a number, and where it stands.
func (s *numbers) add(number, place int) {
	s.highest = max(s.highest, number)
	if k := len(s.runs) - 1; k >= 0 && number == s.runs[k].lo+s.runs[k].n && place == s.runs[k].place+s.runs[k].n {
		s.runs[k].n++
		return
	}
	s.runs = append(s.runs, run{number, 1, place})
}

// at returns where the last take of a number stands.
func (s *numbers) at(number int) (place int, ok bool) {
	for k := len(s.runs) - 1; k >= 0; k-- {
		if r := s.runs[k]; number >= r.lo && number < r.lo+r.n {
			return r.place + number - r.lo, true
		}
	}
	return -1, false
}

func (s *numbers) first() int {
	if len(s.runs) == 0 {
		return 0
	}
	return s.runs[0].lo
}
