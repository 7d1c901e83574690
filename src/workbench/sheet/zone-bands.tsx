/** Letters and figures along the frame, so that a place can be said aloud: `A5`. The same as in what is read aloud, so hidden there. */
export function ZoneBands() {
  return (
    <>
      <div class="zones zones-top" aria-hidden="true">
        {["1", "2", "3", "4", "5", "6", "7", "8"].map((zone) => (
          <span key={zone}>{zone}</span>
        ))}
      </div>
      <div class="zones zones-left" aria-hidden="true">
        {["A", "B", "C", "D", "E", "F"].map((zone) => (
          <span key={zone}>{zone}</span>
        ))}
      </div>
    </>
  );
}
