package logbook

import (
	"os/user"
	"strings"

	"seamrail/export/drive/takelog"
)

// Nobody is the name of an operator whom the log is not to name.
const Nobody = "nobody"

// Operator is who drives, for the log: who was named, else who is logged in here. Of a rig
// made of software only one who was named is anybody's business.
func Operator(named string, virtual bool) (string, error) {
	switch {
	case named == Nobody:
		return "", nil
	case named != "":
		return takelog.Name("--operator", named)
	case virtual:
		return "", nil
	}
	u, err := user.Current()
	if err != nil {
		return "", nil //nolint:nilerr // a system that does not know leaves the log without a name
	}
	name := u.Username[strings.LastIndexByte(u.Username, '\\')+1:] // some systems have a domain before it
	name, err = takelog.Name("the user's name", name)
	if err != nil {
		return "", nil //nolint:nilerr // nobody typed it
	}
	return name, nil
}
