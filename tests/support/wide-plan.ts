/** A plan as text with as many fans as are wanted, ten to a hub, so that nobody has to keep such a file. */
export function widePlan(fans: number): string {
  const hubs = Math.ceil(fans / 10)
  const each = (count: number, line: (i: number) => string): string =>
    Array.from({ length: count }, (_, i) => line(i + 1)).join('\n')
  return `build: Wall of fans in the drying room
supply:
  watts: 3000
  leads:
${each(Math.ceil(hubs / 4), (i) => `    S${i}: { kind: sata, plugs: 4 }`)}
board:
  fan_headers:
${each(hubs, (i) => `    SYS${i}: { amps: 2.0 A, drive: pwm }`)}
parts:
  F1..F${fans}: { kind: fan, motor: { pins: 4, amps: 0.1 A, rpm: [500, 1500] }, flow: in }
  H1..H${hubs}: { kind: fan-hub, ports: 10, power: sata, amps: 4.5 A }
leads:
${each(fans, (i) => `  - F${i}.motor -> H${Math.ceil(i / 10)}.${((i - 1) % 10) + 1}`)}
${each(hubs, (i) => `  - H${i}.in -> board.SYS${i}\n  - H${i}.power -> supply.S${Math.ceil(i / 4)}.${((i - 1) % 4) + 1}`)}
`
}
