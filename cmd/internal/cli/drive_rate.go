package cli

import (
	"fmt"
	"strconv"

	"seamrail/export/drive"
	"seamrail/motion/rig"
)

// shortestMeasure is how long a pass must last, in s, for its rate to be worth
// keeping: answers are timed to a millisecond or two, which are then less than
// the hundred parts in a million that a frame in a minute is off by.
const shortestMeasure = 20

// keepRate writes the rate error that a pass shows into the rig file.
func (s *session) keepRate(p drive.Pass) error {
	known := s.job.rig.Controller.RateError
	switch {
	case p.Executed == 0 || p.Held || p.End != drive.Finished:
		return fmt.Errorf("the rate was not measured: the last take did not run through")
	case p.Executed < shortestMeasure:
		return fmt.Errorf("the rate was not measured: the take lasted %.1f s and should last %d s or more; add --rounds %d",
			p.Executed, shortestMeasure, int(shortestMeasure/s.job.trajectory.Period().Float())+1)
	}
	file, path := s.rigPlace()
	if file == "" {
		return fmt.Errorf("there is no rig file to keep the rate in; \"seamrail new\" makes one")
	}
	text := strconv.FormatFloat(p.RateError(known)*100, 'f', 4, 64) + " %"
	err := rewrite(file, path, text, func(data []byte) error {
		if path == rateKey {
			_, _, err := rig.Decode(file, data)
			return err
		}
		return nil
	})
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(s.out, "It took %.3f s for %.3f s: rate-error = %q is now in %s. Plan again.\n", p.Executed, p.Planned, text, file)
	return err
}

const rateKey = "controller.rate-error"

// rigPlace returns the file that describes the rig, and the key in it.
func (s *session) rigPlace() (file, path string) {
	if file := s.o.Shot.rigFile(s.job.shot); file != "" {
		return file, rateKey
	}
	if s.o.Shot.Shot == "-" || s.job.shot.Rig == nil {
		return "", ""
	}
	return s.o.Shot.Shot, "rig." + rateKey
}
