package cli

import (
	"slices"

	"github.com/spf13/pflag"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/session"
	"seamrail/export/drive/wirelog"
)

// keepWireHelp is what --keep-wire does.
const keepWireHelp = "keep all that goes over the wire, with its times, in `FILE`, a new one; see \"seamrail help driving\""

// notOfThePlan are flags that say how a run goes, which its record has otherwise, or what
// is nobody else's business.
var notOfThePlan = []string{
	"port", "virtual", "fast", "takes", "until-stopped", "home", "at-start", "unlock", "confirmed", "count-in", "keep-rate", "operator", "keep-wire",
	"group", "pass", "rig",
}

// planned are the flags of a command line that say how the shot is planned.
func planned(flags *pflag.FlagSet) (words []string) {
	flags.Visit(func(f *pflag.Flag) {
		if slices.Contains(notOfThePlan, f.Name) {
			return
		}
		values := []string{f.Value.String()}
		if list, ok := f.Value.(pflag.SliceValue); ok {
			values = list.GetSlice()
		}
		for _, v := range values {
			words = append(words, "--"+f.Name+"="+v)
		}
	})
	return words
}

// keepWire has a run keep its wire in a file, which is not there yet, and says what that
// gives away.
func keepWire(s command.Streams, name string, words []string, x job.Source, j *job.Job) (*session.Wire, error) {
	save, err := command.KeepWire(s, s.Out, name)
	if err != nil {
		return nil, err
	}
	parts, shotName, rigName, err := x.Parts(j.Shot)
	if err != nil {
		return nil, err
	}
	w := &session.Wire{Save: save, Words: slices.Concat([]string{"drive"}, words)}
	if shotName != "" {
		w.Words = append(w.Words, shotName)
	}
	if rigName != "" {
		w.Words = append(w.Words, "--rig="+rigName)
	}
	for _, p := range parts {
		w.Files = append(w.Files, wirelog.File{Name: p.Name, Text: p.Text})
	}
	return w, nil
}
