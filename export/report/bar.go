package report

import (
	"fmt"
	"math"
	"strings"
)

// barWidth is how many characters stand for all of a limit.
const barWidth = 16

// nearShare is the share of a limit from which a bar turns yellow: a motor
// that is asked for more has little left for a cable that drags.
const nearShare = 0.9

// bar draws a share of a limit. More than the whole fills it.
func (p *page) bar(share float64) string {
	full := barWidth
	if share < 1 {
		full = int(math.Round(share * barWidth))
	}
	on, off := "#", "."
	if p.Colour {
		on, off = "━", "─"
	}
	return p.Paint(shade(share), strings.Repeat(on, full)) + p.Paint(dim, strings.Repeat(off, barWidth-full))
}

func shade(share float64) string {
	switch {
	case share > 1:
		return red
	case share >= nearShare:
		return yellow
	}
	return green
}

// manyTimes is from where a share is told in times, not per cent.
const manyTimes = 10

// percent prints a share of a limit: "23 % of", "18 times", or "over" where it is past
// counting.
func percent(share float64) string {
	if math.IsInf(share, 0) || share > 99.99 {
		return "over"
	}
	if share >= manyTimes {
		return fmt.Sprintf("%.0f times", share)
	}
	p := fmt.Sprintf("%.0f", share*100)
	if p == "100" && share > 1 {
		p = "101" // never "100 %" for something that is over
	}
	return p + " % of"
}
