package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/power"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
)

// machineFlags are the options that put a motor behind a driver stage and a
// supply, to be run in time.
type machineFlags struct {
	stage   string
	supply  quantity.Voltage
	current quantity.Current
	inertia quantity.Inertia
}

// add adds the options; when says when they count, "" for always.
func (f *machineFlags) add(c *cobra.Command, when string) {
	c.Flags().StringVar(&f.stage, "stage", "", when+"the driver `stage`: "+driver.Names()+", or a stage file")
	c.Flags().Var(&f.supply, "supply", when+"the motor supply, as 12V (the rated voltage, or what suits a stage that sets its current)")
	c.Flags().Var(&f.current, "current", when+"what a stage is set to that sets it, as 1.2A (the rated current)")
	c.Flags().Var(&f.inertia, "inertia", when+"of what hangs on the output shaft, as 5g.cm2")
}

// given says whether any of them was.
func (f *machineFlags) given() bool {
	return f.stage != "" || f.supply.Given() || f.current.Given() || f.inertia.Given()
}

// plant gives the machine of a motor, what of it had to be estimated, and how it is
// driven.
func (p *program) plant(m motor.Motor, f *machineFlags) (plant rotor.Plant, estimates []rotor.Estimate, d power.Driven, err error) {
	var stage driver.Stage
	if f.stage != "" {
		if stage, err = driver.Open(f.stage, p.in); err != nil {
			return plant, nil, d, err
		}
	}
	var supply driver.Supply
	if f.supply.Given() {
		supply = driver.SupplyOf(f.supply)
	}
	if d, err = power.Drives(m, stage, supply, ""); err != nil {
		return plant, nil, d, err
	}
	if err = d.SetTo(f.current); err != nil {
		return plant, nil, d, fmt.Errorf("--current: %w", err)
	}
	if plant, estimates, err = d.Plant(); err != nil {
		return plant, nil, d, err
	}
	plant.Load.Inertia = f.inertia.Base()
	return plant, estimates, d, plant.Check()
}
