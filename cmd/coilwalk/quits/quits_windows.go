// Package quits is about a signal that is not there.
package quits

// InOrder does nothing here.
func InOrder() {}
