// A sequencer that drives the four inputs of a driver in half steps, and a bench
// that has it go on, back, rest, and go on more slowly. Written for coilwalk,
// under its licence; Icarus Verilog runs it and dumps all that changes.
`timescale 1us / 100ns

module sequencer (input clock, input enable, input forward, output reg [3:0] coils);
  reg [2:0] place;
  initial begin
    place = 0;
    coils = 4'b0000;
  end
  always @(posedge clock)
    if (enable) begin
      place = forward ? place + 3'd1 : place - 3'd1;
      case (place) // bit 0 is IN1
        3'd0: coils = 4'b0001;
        3'd1: coils = 4'b0011;
        3'd2: coils = 4'b0010;
        3'd3: coils = 4'b0110;
        3'd4: coils = 4'b0100;
        3'd5: coils = 4'b1100;
        3'd6: coils = 4'b1000;
        3'd7: coils = 4'b1001;
      endcase
    end
endmodule

module bench;
  reg clock, enable, forward;
  real volts;
  integer rows;
  wire [3:0] coils;
  wire IN1 = coils[0], IN2 = coils[1], IN3 = coils[2], IN4 = coils[3];

  sequencer driven (.clock(clock), .enable(enable), .forward(forward), .coils(coils));

  task tick (input integer count, input real half);
    repeat (count) begin
      #half clock = 1;
      rows = rows + 1;
      #half clock = 0;
    end
  endtask

  initial begin
    $dumpfile("sequencer.vcd");
    $dumpvars(0, bench);
    clock = 0;
    rows = 0;
    volts = 4.75;
    forward = 1;
    #10 enable = 1; // unknown until now
    tick(20, 250.0);
    forward = 0;
    tick(12, 250.0);
    enable = 0;
    tick(7, 1000.0); // the row is held
    volts = 5.25;
    enable = 1;
    forward = 1;
    tick(9, 487.3);
    $dumpoff;
    #5000 tick(2, 250.0); // nobody sees these
    $dumpon;
    tick(4, 250.0);
    $finish;
  end
endmodule
