package job

import (
	"path/filepath"
	"strings"

	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/textfile"
	"seamrail/motion/base/list"
	"seamrail/motion/spec/shot"
)

// Part is a file that a shot is made from.
type Part struct {
	Name string // from the folder that holds all parts, with slashes
	Text []byte
}

// Parts are the files of a shot that has been read: the shot, what lies under it, its list
// of markers, and the rig. The shot and the rig of the source are named as the parts are; "" where there is
// no file of it.
func (x Source) Parts(s shot.Shot) (parts []Part, shotName, rigName string, err error) {
	var names []string
	add := func(name string, text []byte, err error) error {
		if err == nil {
			name, err = filepath.Abs(name)
		}
		names, parts = append(names, name), append(parts, Part{Text: text})
		return err
	}
	if _, bare := x.bare(); !bare && x.Shot != textfile.Stdin {
		name, text, err := x.shotText(nil)
		if err := add(name, text, err); err != nil {
			return nil, "", "", err
		}
	}
	shots := len(parts)
	for _, name := range x.besides(s) {
		text, err := textfile.Read(name)
		if err := add(name, text, err); err != nil {
			return nil, "", "", err
		}
	}
	rigs := len(parts)
	switch name := x.RigFile(s); {
	case name != "":
		text, err := textfile.Read(name)
		err = add(name, text, err)
		if err != nil {
			return nil, "", "", err
		}
	case s.Rig == nil && s.RigFile != "":
		if err := add(starter.RigName, starter.Rig(), nil); err != nil {
			return nil, "", "", err
		}
	}
	below(names, parts)
	if shots > 0 {
		shotName = parts[0].Name
	}
	if x.Rig != "" {
		rigName = parts[rigs].Name
	}
	return parts, shotName, rigName, nil
}

// besides are the files that a shot is made from besides itself and its rig.
func (x Source) besides(s shot.Shot) []string {
	names := list.Map(s.Laid.Files, func(f shot.LaidFile) string { return f.Name })
	if s.Music.List != "" {
		names = append(names, textfile.Beside(x.Shot, s.Music.List))
	}
	return names
}

// below names parts from the nearest folder that holds all of them.
func below(names []string, parts []Part) {
	if len(names) == 0 {
		return
	}
	top := filepath.Dir(names[0])
	for _, name := range names {
		for !strings.HasPrefix(name, strings.TrimSuffix(top, string(filepath.Separator))+string(filepath.Separator)) && top != filepath.Dir(top) {
			top = filepath.Dir(top)
		}
	}
	for i, name := range names {
		parts[i].Name = strings.TrimPrefix(filepath.ToSlash(strings.TrimPrefix(name, top)), "/")
	}
}
