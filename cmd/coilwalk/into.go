package main

import (
	"os"

	"github.com/spf13/cobra"

	"coilwalk/model/files"
)

// forceFlag lets a command replace a file that is there.
func forceFlag(c *cobra.Command, over *bool) {
	c.Flags().BoolVar(over, "force", false, "replace a file that is there")
}

// free complains of a file that could not be written, or that is there and is not to
// be replaced: before anything is computed or asked for it.
func free(name string, over bool) error {
	err := files.CanWrite(name)
	if _, missing := os.Lstat(name); err == nil && missing == nil && !over {
		return &files.Complaint{File: name, What: "this file is there already", Right: "choose another name, or give --force to replace it"}
	}
	return err
}

// into writes a file, over one that is there only if that is meant.
func into(name string, text []byte, over bool) error {
	if over {
		return files.Write(name, text)
	}
	return files.WriteNew(name, text)
}
