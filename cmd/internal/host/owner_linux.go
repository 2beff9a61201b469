package host

import (
	"fmt"
	"os"
	"os/user"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
)

// Holders names the other programs that have a port open, as far as this user may see
// that.
func Holders(port string) []string {
	real, err := filepath.EvalSymlinks(port)
	if err != nil {
		return nil
	}
	var out []string
	open, _ := filepath.Glob("/proc/[0-9]*/fd/*")
	seen := map[string]bool{strconv.Itoa(os.Getpid()): true}
	for _, fd := range open {
		process := strings.Split(fd, "/")[2]
		if at, err := os.Readlink(fd); err != nil || at != real || seen[process] {
			continue
		}
		seen[process] = true
		name, err := os.ReadFile(filepath.Join("/proc", process, "comm"))
		if err != nil {
			name = []byte("a program")
		}
		out = append(out, fmt.Sprintf("%s (process %s)", known(string(name)), process))
	}
	return out
}

// GroupOf is the group that may use a port, "" where that cannot be told.
func GroupOf(port string) string {
	info, err := os.Stat(port)
	if err != nil {
		return ""
	}
	owner, ok := info.Sys().(*syscall.Stat_t)
	if !ok {
		return ""
	}
	g, err := user.LookupGroupId(strconv.FormatUint(uint64(owner.Gid), 10))
	if err != nil {
		return ""
	}
	return g.Name
}
