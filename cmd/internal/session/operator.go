package session

import (
	"fmt"
	"os/user"
	"strings"

	"seamrail/export/drive/takelog"
)

// Nobody is the name of an operator whom the log is not to name.
const Nobody = "nobody"

// driver is who drives, for the log: who was named, else who is logged in here. Of a rig
// made of software only one who was named is anybody's business.
func (o *Options) driver() (string, error) {
	switch {
	case o.Operator == Nobody:
		return "", nil
	case o.Operator != "":
		return takelog.Name("--operator", o.Operator)
	case o.Virtual:
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

// drivenBy says once whom the log names.
func (s *session) drivenBy() string {
	if s.driven == "" {
		return ""
	}
	how := "--operator says another name, or " + Nobody
	if s.o.Operator != "" {
		how = "as --operator says"
	}
	return fmt.Sprintf("The log says that %s drives (%s). It stays in the file beside the shot.\n", s.driven, how)
}
