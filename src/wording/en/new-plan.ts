/** The plan that `new` writes: a small build that can be read at once, with a word on each thing to change. */
export const newPlan = `# The wiring of one build. Change it to the build at hand, then: whichlead check THIS-FILE
# Every number may carry its unit: 0.25 A, 250 mA, 5 V. What you do not know, leave out; it is told what that costs.
build: My build

supply:
  leads:
    SA: { kind: sata, plugs: 3 }            # one lead of the supply and its plugs

board:
  fan_headers:                              # from the board manual: rated amps, and what it can drive
    CPU:  { amps: 1 A, drive: pwm }
    SYS1: { amps: 1 A, drive: auto }
  usb_headers:
    U1: { kind: usb2, ports: 2 }

parts:
  F1:
    kind: fan
    motor: { pins: 4, amps: 0.25 A, start_amps: 0.5 A, rpm: [450, 1500] }
    light: { volts: 5 V, leds: 8, amps: 0.32 A }
    at: front-bottom
    flow: in
  F2: { like: F1, at: front-top }           # a second one of the same
  Y1: { kind: fan-splitter, ways: 2, tach_from: 1 }
  H1: { kind: light-hub, ports: 4, chain: series, power: sata, host: usb, before_host: stored-pattern }

leads:                                      # from the plug at a part's own lead to where it is pushed in
  - F1.motor -> Y1.1
  - F2.motor -> Y1.2
  - Y1.in    -> board.SYS1
  - F1.light -> H1.1
  - F2.light -> H1.2
  - H1.power -> supply.SA.1
  - H1.usb   -> board.U1.a

settings:
  headers:
    SYS1: { drive: pwm, curve: [[30, 40], [70, 100]] }   # degrees Celsius and percent
  channels:
    H1: { profile: [8, 8] }                 # LEDs by port, in order
  host: { program: running, global_effect: off }

light_order: [F1, F2]
`
