namespace Inspect.Ball;

/// <summary>One value in a description of a ball or hole that cannot be used: its member, and a sentence for people.</summary>
/// <param name="Member">The member as a described ball names it, for example <c>holes[0].pitch.east</c>.</param>
/// <param name="Message">What is wrong, with the value in quotes, and what would be right.</param>
public sealed record DescriptionFault(string Member, string Message);
