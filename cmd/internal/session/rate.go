package session

import (
	"fmt"
	"strconv"

	"seamrail/cmd/internal/textfile"
	"seamrail/export/drive/rate"
	"seamrail/motion/base/plain"
	"seamrail/motion/controller/ontime"
	"seamrail/motion/spec/rig"
)

// foretold returns how long a controller is expected to take over so many
// rounds, or nil where nothing is.
func foretold(x *ontime.Prediction) func(rounds int64) float64 {
	if x == nil || x.Exact {
		return nil
	}
	return func(rounds int64) float64 { return x.Executed + float64(rounds-x.Rounds)*x.RoundExecuted }
}

// keepRate writes the rate error that the passes show into the rig file, where it
// makes what is foretold better.
func (s *session) keepRate() error {
	known := s.job.Rig.Controller.RateError
	found, err := rate.Fit(known, s.passes)
	if err != nil {
		return err
	}
	if !found.Betters(known) {
		_, err = fmt.Fprintf(s.out, "The rate error was measured as %s. That does not tell it from the %.4f %% that is known, which stays.\n",
			found, known*100)
		return err
	}
	file, path := s.rigPlace()
	if file == "" {
		return fmt.Errorf("there is no rig file to keep the rate in; \"seamrail new\" makes one")
	}
	text := strconv.FormatFloat(found.Rate*100, 'f', 4, 64) + " %"
	sound := func(data []byte) error {
		if path == rateKey {
			_, _, err := rig.Decode(file, data)
			return err
		}
		return nil
	}
	if err := textfile.Rewrite(file, "not written: ", sound, textfile.Value{Path: path, Text: text, How: "measured by drive --keep-rate"}); err != nil {
		return err
	}
	_, err = fmt.Fprintf(s.out, "The rate error is %s, from %s: rate-error = %q is now in %s. Plan again.\n",
		found, plain.Count(found.Points, "time"), text, file)
	return err
}

const rateKey = "controller.rate-error"

// rigPlace returns the file that describes the rig, and the key in it.
func (s *session) rigPlace() (file, path string) {
	if file := s.o.Source.RigFile(s.job.Shot); file != "" {
		return file, rateKey
	}
	if s.o.Source.Shot == "-" || s.job.Shot.Rig == nil {
		return "", ""
	}
	return s.o.Source.Shot, "rig." + rateKey
}
