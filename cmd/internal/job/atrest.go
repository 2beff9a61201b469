package job

import (
	"fmt"
	"strconv"
	"strings"

	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/textfile"
	"seamrail/motion/base/source"
	"seamrail/motion/spec/filekind"
	"seamrail/motion/spec/rig"
)

// restName is what the shot of a rig alone is called, in its plan and in faults.
const restName = "the rig at rest"

// AtRest is a job of a rig file alone, or with "" of the built-in one, for whoever has a
// rig to move and no shot yet: all of its axes, in the order of the file, each at its home
// and at rest for a second. Its plan asks for no motion, so that no controller fails it.
func AtRest(rigFile string) (*Job, error) {
	name, data, err := starter.RigName, starter.Rig(), error(nil)
	if rigFile != "" {
		name = rigFile
		if data, err = textfile.Read(rigFile); err != nil {
			return nil, err
		}
	}
	r, defaults, faults := rig.Understand(name, data)
	if err := faults.Err(); err != nil {
		return nil, textfile.Rather(err, name, data, filekind.Rig)
	}
	if err := Driven(r); err != nil {
		return nil, err
	}
	s, faults := Files.Understand(restName, restText(r), nil)
	if err := faults.Err(); err != nil {
		return nil, err
	}
	s.Rig, s.RigFile, s.Defaults = &r, name, append(s.Defaults, defaults...)
	return Plan(s, r, false)
}

// restText is the shot of a rig at rest.
func restText(r rig.Rig) []byte {
	var b strings.Builder
	b.WriteString("shot = \"At rest\"\n[clock]\ncapture = 24\nplayback = 24\nloop = \"24 frames\"\n[take]\nrounds = 1\n[rig]\nfile = \"" + starter.RigName + "\"\n")
	for _, a := range r.Axes {
		fmt.Fprintf(&b, "[%s]\nat = %q\n", source.Join("axis", a.Name), strconv.FormatFloat(a.Home, 'f', -1, 64)+" "+a.Unit())
	}
	return []byte(b.String())
}
