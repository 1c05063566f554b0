package main

import (
	"github.com/spf13/cobra"

	"coilwalk/model/driver"
	"coilwalk/model/motor"
	"coilwalk/model/quantity"
	"coilwalk/model/rotor"
)

// machineFlags are the options that put a motor behind a driver stage and a
// supply, to be run in time.
type machineFlags struct {
	stage   string
	supply  quantity.Voltage
	inertia quantity.Inertia
}

// add adds the options; when says when they count, "" for always.
func (f *machineFlags) add(c *cobra.Command, when string) {
	c.Flags().StringVar(&f.stage, "stage", "", when+"the driver `stage`: "+driver.Names()+", or a stage file")
	c.Flags().Var(&f.supply, "supply", when+"the motor supply, as 12V (the rated voltage)")
	c.Flags().Var(&f.inertia, "inertia", when+"of what hangs on the output shaft, as 5g.cm2")
}

// given says whether any of them was.
func (f *machineFlags) given() bool { return f.stage != "" || f.supply.Given() || f.inertia.Given() }

// plant gives the machine of a motor, and what of it had to be estimated.
func (p *program) plant(m motor.Motor, f *machineFlags) (rotor.Plant, []rotor.Estimate, error) {
	stage := driver.Usual(m.Drive, f.supply.Given())
	if f.stage != "" {
		var err error
		if stage, err = driver.Open(f.stage, p.in); err != nil {
			return rotor.Plant{}, nil, err
		}
	}
	plant, estimates, err := rotor.PlantOf(m, stage, f.supply)
	if err != nil {
		return plant, nil, err
	}
	plant.Load.Inertia = f.inertia.Base()
	return plant, estimates, plant.Check()
}
