package place

import (
	"fmt"
	"os"
)

// lock keeps other runs from publishing to the folder called name until release
// is called, or this run ends in whatever way: what is locked is a file held open,
// which the system lets go by itself. The file stands beside the folder.
func lock(parent disk, name string) (release func(), err error) {
	held := hidden(name, ".lock")
	for range 100 {
		if info, err := parent.Lstat(held); err == nil && (!info.Mode().IsRegular() || info.Size() > 0) {
			return nil, fmt.Errorf("%q beside the folder %q is not guidecoat's, which needs that name for a moment; rename it", held, name)
		}
		file, err := parent.OpenFile(held, os.O_RDWR|os.O_CREATE, 0o644)
		if err != nil {
			return nil, fmt.Errorf("cannot write beside the folder %q; %s: %w", name, remedy(err), err)
		}
		busy := true
		err = control(file, func(fd uintptr) error { busy = !hold(fd); return nil })
		if !busy && stands(parent, held, file) {
			return func() {
				if stands(parent, held, file) {
					parent.Remove(held)
				}
				file.Close()
			}, nil
		}
		file.Close()
		if err != nil {
			return nil, fmt.Errorf("cannot lock the folder %q; %s: %w", name, remedy(err), err)
		}
		if busy {
			break
		}
	}
	return nil, fmt.Errorf("another run of guidecoat is publishing to %q; wait until it has ended", name)
}

// stands tells whether the open file still has that name, and is empty as ours are: a
// disk that fails may have hidden that somebody's file stood there. The run that held
// ours before may have removed it, after it was opened here; then it keeps nobody out.
func stands(parent disk, name string, file *os.File) bool {
	ours, err := file.Stat()
	if err != nil {
		return false
	}
	now, err := parent.Lstat(name)
	return err == nil && os.SameFile(ours, now) && ours.Size() == 0
}

// control calls do with the descriptor of the file.
func control(file *os.File, do func(fd uintptr) error) error {
	conn, err := file.SyscallConn()
	if err != nil {
		return err
	}
	var failed error
	if err := conn.Control(func(fd uintptr) { failed = do(fd) }); err != nil {
		return err
	}
	return failed
}
