package footage

import (
	"strconv"
	"strings"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/film"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/laid"
	"seamrail/cmd/internal/rushes"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/unit"
	"seamrail/motion/footage/alike"
)

// framesOf reads "100-2500", "100-" or "100"; frames count from 0.
func framesOf(text string) (film.Range, error) {
	if text == "" {
		return film.Range{}, nil
	}
	from, to, several := strings.Cut(text, "-")
	first, err := strconv.Atoi(strings.TrimSpace(from))
	if err != nil || first < 0 {
		return film.Range{}, exit.Misused("--frames %q must be two frames, counted from 0, such as 100-2500, or 100- for all from there on", text)
	}
	if several && strings.TrimSpace(to) == "" {
		return film.Range{First: first}, nil
	}
	last := first
	if several {
		if last, err = strconv.Atoi(strings.TrimSpace(to)); err != nil || last < first {
			return film.Range{}, exit.Misused("--frames %q must end with a frame that is not before its first, such as %d-%d", text, first, first+1000)
		}
	}
	return film.Range{First: first, Last: last, Bounded: true}, nil
}

func regionOf(text string) (film.Region, error) {
	if text == "" {
		return film.Region{}, nil
	}
	parts := strings.Split(text, ",")
	var n [4]int
	for i := range n {
		var err error
		if len(parts) == len(n) {
			n[i], err = strconv.Atoi(strings.TrimSpace(parts[i]))
		}
		if err != nil || len(parts) != len(n) || n[i] < 0 || i > 1 && n[i] == 0 {
			return film.Region{}, exit.Misused("--region %q must be the left upper corner, the width and the height in recorded px, such as 200,100,1280,720", text)
		}
	}
	return film.Region{X: n[0], Y: n[1], Width: n[2], Height: n[3]}, nil
}

func scaleOf(text string) (float64, error) {
	if text == "" {
		return 0, nil
	}
	r, err := exact.Parse(text)
	if err != nil || r.Sign() <= 0 || exact.Int(1).Less(r) {
		return 0, exit.Misused("--scale %q must be above 0 and at most 1, such as 1/2", text)
	}
	return r.Float(), nil
}

func rateOf(text string) (exact.Rat, error) {
	if text == "" {
		return exact.Rat{}, nil
	}
	return clock.ParseRate(text)
}

// lengths are how long a loop may be, in frames.
func (o *Options) lengths(take *rushes.Take, j *job.Job) (alike.Range, error) {
	rate := take.Course.About.Rate
	r := alike.Range{Apart: laid.Apart}
	switch {
	case len(o.Between) == 2:
		for n, to := range []*int{&r.Min, &r.Max} {
			var err error
			if *to, err = lengthOf(o.Between[n], rate); err != nil {
				return r, err
			}
		}
		if r.Max < r.Min {
			return r, exit.Misused("--between: the longest loop must not be shorter than the shortest, %d frames", r.Min)
		}
	case len(o.Between) > 0:
		return r, exit.Misused("--between takes two lengths, such as \"48 frames,10 s\"")
	default:
		return laid.Lengths(take, j), nil
	}
	return r, nil
}

// lengthOf reads "48 frames" or a time as the film plays.
func lengthOf(text string, rate exact.Rat) (int, error) {
	number, frames := strings.CutSuffix(strings.TrimSpace(text), "frames")
	if frames {
		if n, err := strconv.Atoi(strings.TrimSpace(number)); err == nil && n > 0 {
			return n, nil
		}
		return 0, exit.Misused("--between %q must be a whole number of frames above 0", text)
	}
	q, err := unit.ParseAs(text, unit.Time)
	if err != nil {
		return 0, exit.Misused("--between: %w", err)
	}
	if rate.Sign() <= 0 {
		return 0, exit.Misused("--between %q: the recording does not say how many frames it has a second; say --rate, or count in frames", text)
	}
	n := int(q.Float()*rate.Float() + 0.5)
	if n < 1 {
		return 0, exit.Misused("--between %q must be at least a frame, %s s", text, exact.Int(1).Quo(rate).Decimal(4))
	}
	return n, nil
}
