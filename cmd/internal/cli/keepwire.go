package cli

import (
	"path/filepath"
	"slices"

	"github.com/spf13/pflag"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/session"
	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/textfile"
	"seamrail/export/drive/wirelog"
	"seamrail/motion/base/list"
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
	w := &session.Wire{Save: save, Words: slices.Concat([]string{"drive"}, words)}
	if shotName != "" {
		w.Words = append(w.Words, shotName)
	}
	if rigName != "" {
		w.Words = append(w.Words, "--rig="+rigName)
	}
	w.Files = filesOf(parts)
	return w, err
}

// keepJog has a jog keep its wire, with the shot and its rig, or the rig alone.
func keepJog(o *JogOptions, j *job.Job) (*session.Wire, error) {
	save, err := command.KeepWire(o.Streams, o.Streams.Out, o.Keep)
	if err != nil {
		return nil, err
	}
	if o.Source.Shot != "" {
		parts, shotName, _, err := o.Source.Parts(j.Shot)
		return &session.Wire{Save: save, Words: []string{"jog", shotName}, Files: filesOf(parts)}, err
	}
	rigFile := job.Part{Name: starter.RigName, Text: starter.Rig()}
	if o.File != "" {
		rigFile.Name = filepath.Base(o.File)
		rigFile.Text, err = textfile.Read(o.File)
	}
	return &session.Wire{Save: save, Words: []string{"jog", rigFile.Name}, Files: filesOf([]job.Part{rigFile})}, err
}

// filesOf are the parts of a shot as a record has them.
func filesOf(parts []job.Part) []wirelog.File {
	return list.Map(parts, func(p job.Part) wirelog.File { return wirelog.File{Name: p.Name, Text: p.Text} })
}
