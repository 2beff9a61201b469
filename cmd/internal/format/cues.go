package format

import (
	"errors"
	"io"

	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/logbook"
	"seamrail/export/cue/captions"
	"seamrail/export/cue/click"
	"seamrail/export/cue/cuesheet"
	"seamrail/export/header"
	"seamrail/motion/cue"
)

var cueFiles = []Format{
	cued(".txt", "when each hand has to move, and why then"),
	cued(".wav", "a click track of it, to be played on the set"),
	cued(".vtt", "the same as captions, for a player"),
}

func cued(ending, purpose string) Format {
	return Format{
		File: "cues" + ending, Purpose: purpose,
		Needs: func(of *Of) error { return Cued(of.Job) },
		Write: func(of *Of, w io.Writer) error {
			take, err := cuesOf(of)
			if err != nil {
				return err
			}
			return cueWriters[ending](w, of.Job, take)
		},
	}
}

// Cued is an error where a shot has no cues to write.
func Cued(j *job.Job) error {
	if len(j.Cues.Cues) == 0 && j.Mark == nil {
		return errors.New("the shot has no cue; a [[cue]] table in its file, with name and at, would be one")
	}
	return nil
}

// CueWriter returns what writes the cues of a take in the form that the ending of a
// file's name asks for, nil for none.
func CueWriter(ending string) func(io.Writer, *job.Job, cue.Take) error { return cueWriters[ending] }

var cueWriters = map[string]func(io.Writer, *job.Job, cue.Take) error{
	".txt": func(w io.Writer, _ *job.Job, t cue.Take) error { return cuesheet.Write(w, t) },
	".wav": func(w io.Writer, j *job.Job, t cue.Take) error { return click.Write(w, t, about(j, "click track")) },
	".vtt": func(w io.Writer, j *job.Job, t cue.Take) error {
		return captions.Write(w, t, about(j, "cues as captions"))
	},
}

// about is what stands in the head of a file of cues.
func about(j *job.Job, what string) []string {
	return append(header.Of(j.Plan, j.Verdict).Lines(what), "times: real time, from the first beat of the count-in")
}

// cuesOf are the cues of the take, with what the log says of its hands.
func cuesOf(of *Of) (cue.Take, error) {
	sheet, err := logbook.Habitual(of.Cues, of.Shot.File)
	return sheet.ForTake(int64(of.Plan.Rounds), int64(of.CountIn)), err
}

// countIn is how many beats count a take in: those asked for, or as many as its
// cues need, as their click track has them.
func countIn(of *Of) (int64, error) {
	if len(of.Cues.Cues) == 0 && of.Mark == nil {
		return int64(of.CountIn), nil
	}
	take, err := cuesOf(of)
	return take.CountIn, err
}
