namespace Inspect.Station.Tests.Desk.Charts;

/// <summary>How a browser says, once the style sheet and its letters are there, which labels of the pictures touch each other or leave
/// their picture.</summary>
internal static class Labels
{
    public const string ThatTouch =
        """
        async () => {
        if (document.readyState !== "complete") await new Promise(done => addEventListener("load", done));
        await Promise.all([...document.fonts].map(font => font.load()));
        await document.fonts.ready;
        await new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)));
        return [...document.querySelectorAll("svg[role=img]")].flatMap(picture => {
          const box = picture.getBoundingClientRect(), faults = [];
          const labels = [...picture.querySelectorAll("text")].map(label => [label.textContent, label.getBoundingClientRect()]);
          labels.forEach(([words, one], i) => {
            if (one.left < box.left - 1.5 || one.right > box.right + 1.5) faults.push(`${words} leaves its picture`);
            for (const [others, other] of labels.slice(i + 1)) {
              const across = Math.min(one.right, other.right) - Math.max(one.left, other.left);
              const down = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
              if (across > 1 && down > 3) faults.push(`${words} touches ${others}`);
            }
          });
          return faults;
        }); }
        """;
}
